"""Where the text says `by rule`, some rule gives a value."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.segments import Heat, Hold
from hts.language.vocabulary.types import ByRule
from hts.limits.quantities import Direction

RULE = Rule(
    "L219",
    "rule-gives-nothing",
    "error",
    floor="error",
    summary="A value `by rule` that no book or procedure gives.",
    why="The paper would be blank where the technician looks for a number.",
    fix="State the value, or name a book or procedure that gives it.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (("  interpass         at most 315 degC", "  interpass         at most by rule"),),
            at="by rule",
        ),
        Bad(
            (
                (
                    "governed by  asme-b31.3 edition 2018, local-heating",
                    "governed by  asme-b31.3 edition 2012, local-heating",
                ),
                ("  hold  700 .. 730 degC", "  hold  705 .. 730 degC"),
                ("  at least          150 degC", "  at least          180 degC"),
                (
                    "  heat  to 715 degC   at most 200 degC/h",
                    "  heat  to 715 degC   at most by rule",
                ),
            ),
            at="by rule",
        ),
    ),
)
_Asked = tuple[object, str, tuple[Direction, ...], Span]


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    job = case.spec.file.job
    books = sum(authority.is_book for authority in case.authorities)
    # With an unknown book nothing can be expected of it: told at the book.
    if job is None or books < len(job.governed_by) or not job.sound:
        return
    asked = [(limits_of(case, joint), joint.address, asked) for asked in _of_joint(joint)]
    for treatment in (*joint.cycles, *joint.bakes):
        if treatment.entry.sound:
            limits = case.limits(joint, treatment)
            asked += [(limits, treatment.address, asked_) for asked_ in _of_treatment(treatment)]
    for limits, address, (value, quantity, directions, at) in asked:
        if not isinstance(value, ByRule):
            continue
        governing = limits.of(quantity)
        if governing is not None and governing.unanswered:
            continue
        lacking = [d for d in directions if governing is None or governing.setter(d) is None]
        if lacking:
            least = {"minimum": "a lowest ", "maximum": "a highest ", "exactly": "a "}[lacking[0]]
            case.add(
                RULE.found(
                    f"no book or procedure gives {least}{quantity} for {joint.name}",
                    at,
                    address=address,
                )
            )


def _of_joint(joint: Joint) -> Iterator[_Asked]:
    entry, heating, preheat = joint.entry, joint.entry.heating, joint.preheat
    yield (
        entry.governing_thickness,
        "governing thickness",
        ("exactly",),
        entry.place("governing_thickness"),
    )
    if heating is not None:
        for band in ("soak", "heated", "gradient"):
            yield (
                getattr(heating, f"{band}_band"),
                f"{band} band",
                ("minimum",),
                heating.place(f"{band}_band"),
            )
        yield heating.zone_count, "zones", ("minimum",), heating.place("zone_count")
    if preheat is not None:
        yield preheat.at_least, "preheat", ("minimum",), preheat.place("at_least")
        yield preheat.width, "preheat width", ("minimum",), preheat.place("width")
        if preheat.interpass is not None:
            yield (
                preheat.interpass.at_most,
                "interpass",
                ("maximum",),
                preheat.interpass.place("at_most"),
            )


def _of_treatment(treatment: Treatment) -> Iterator[_Asked]:
    word = "bake" if treatment.is_bake else "hold"
    for segment in treatment.entry.segments:
        if isinstance(segment, Hold):
            yield (
                segment.range,
                f"{word} temperature",
                ("minimum", "maximum"),
                segment.place("range"),
            )
            yield segment.time, f"{word} time", ("minimum",), segment.place("time")
        else:
            words = "heating rate" if isinstance(segment, Heat) else "cooling rate"
            yield segment.rate, words, ("maximum",), segment.place("rate")
