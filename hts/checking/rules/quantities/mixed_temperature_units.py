"""All temperatures and rates of one preheat or treatment are written in one system."""

from __future__ import annotations

from collections.abc import Sequence

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.preheat import Preheat
from hts.language.vocabulary.segments import Cool, Heat

#: A rate that comes to a multiple of this in the other unit was converted, and is no slip.
_ROUND = 5
#: In degF: 500 and 600, as codes print them, stand in papers in degC, too.
_OF_CODES = 400
#: A temperature and where it stands.
_Placed = tuple[Quantity, Span]

RULE = Rule(
    "Q202",
    "mixed-temperature-units",
    "warning",
    summary="One preheat or treatment with some temperatures in degC and others in degF, or with a rate in the "
    "other of the two.",
    why="A 300 degF among figures in degC is read as 300 degC at the controller: a step half as hot "
    "or twice as hot as meant.",
    fix="Write all temperatures and rates of the treatment in one unit; paper can show both.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("  heat  to 315 degC\n", "  heat  to 599 degF\n"),),
            at="599 degF",
            says="599 degF (315 degC)",
        ),
        Bad(
            (("start of control    300 degC", "start of control    315 degF"),),
            at="315 degF",
            says="315 degF (157 degC)",
        ),
        Bad(
            (("end of control      300 degC", "end of control      250 degF"),),
            at="250 degF",
            says="250 degF (121 degC)",
        ),
        Bad(
            (("to 715 degC   at most 200 degC/h", "to 715 degC   at most 200 degF/h"),),
            at="200 degF/h",
            says="200 degF/h (111 degC/h) … among temperatures in degC",
        ),
        Bad(
            (
                ("  at least          150 degC\n", "  at least          302 degF\n"),
                (
                    "  keep until        end of welding",
                    "  maintain at least 302 degF\n  keep until        end of welding",
                ),
            ),
            at="302 degF",
            says="302 degF (150 degC) … among temperatures in degC",
        ),
    ),
    good=(
        Good((("to 715 degC   at most 200 degC/h", "to 715 degC   at most 360 degF/h"),)),
        Good((("start of control    300 degC", "start of control    572 degF"),)),
        # The hold and the step to it, as the controller is set.
        Good(
            (
                ("heat  to 715 degC ", "heat  to 1319 degF "),
                ("hold  700 .. 730 degC", "hold  1292 .. 1346 degF"),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    found = _of_preheat(joint.preheat) if joint.preheat is not None else None
    if found is not None:
        _tell(case, found, f"{joint.address}/preheat")
    for treatment in case.treatments(joint):
        written = _written(treatment)
        units = {quantity.unit.symbol for quantity, _ in written}
        if len(units) > 1:
            found = _odd(case, treatment, written)
        else:
            found = _same_digits(treatment, written)
        found = found or _rate(treatment, written)
        if found is not None:
            _tell(case, found, treatment.address)


def _tell(case: Case, found: tuple[_Placed, _Placed], address: str) -> None:
    (strange, at), (usual, other) = found
    case.add(
        RULE.found(
            f"{strange.both()} is given among temperatures in {usual.unit.symbol}",
            at,
            address=address,
            others=[Label(other, "for example")],
        )
    )


def _of_preheat(preheat: Preheat) -> tuple[_Placed, _Placed] | None:
    """A preheat that agrees with what is kept, and is in another unit than the interpass temperature
    and all that measures it. One figure alone in another unit is told by what it comes to."""
    least, kept, interpass = preheat.at_least, preheat.maintain, preheat.interpass
    most = interpass.at_most if interpass is not None else None
    if not (isinstance(least, Quantity) and isinstance(most, Quantity) and kept is not None):
        return None
    unit = least.unit
    read = [each.highest.unit for each in preheat.measured if each.highest is not None]
    if kept.unit is not unit or most.unit is unit or not read or unit in read:
        return None
    assert interpass is not None
    return (least, preheat.place("at_least")), (most, interpass.place("at_most"))


def _is_held(case: Case, treatment: Treatment, to: Quantity) -> bool:
    """Whether a step goes where the hold is, in the unit of the hold, which then is no slip."""
    return any(
        held.low is not None
        and held.high is not None
        and held.low.unit is to.unit
        and held.low <= to <= held.high
        for _, held in holds(case, treatment)
    )


def _odd(
    case: Case, treatment: Treatment, written: Sequence[_Placed]
) -> tuple[_Placed, _Placed] | None:
    """The unit used less often is the likely slip; None where it is that of a step to the hold."""
    symbols = [quantity.unit.symbol for quantity, _ in written]
    odd = min(sorted(set(symbols)), key=symbols.count)
    for each in written:
        if each[0].unit.symbol == odd and not _is_held(case, treatment, each[0]):
            return each, next(other for other in written if other[0].unit.symbol != odd)
    return None


def _same_digits(
    treatment: Treatment, written: Sequence[_Placed]
) -> tuple[_Placed, _Placed] | None:
    """Where control begins or ends at the figure of a step, in another unit than that step."""
    entry = treatment.entry
    for field, stated in (
        ("start_control", entry.start_control),
        ("end_control", entry.end_control),
    ):
        for step in written:
            if (
                stated is not None
                and stated.unit is not step[0].unit
                and stated.written.split()[0] == step[0].written.split()[0]
            ):
                return (stated, entry.place(field)), step
    units = {step[0].unit for step in written}
    ends = entry.end_control
    if len(units) != 1 or ends is None or ends.unit in units or _is_converted(ends):
        return None
    return (ends, entry.place("end_control")), written[0]


def _is_converted(stated: Quantity) -> bool:
    """Whether a figure is round in the other unit, or one of the round figures of codes in degF."""
    other = "degC" if stated.unit.symbol == "degF" else "degF"
    round_there = stated.to(other) % _ROUND == 0
    return round_there or (stated.to("degF") >= _OF_CODES and stated.to("degF") % 100 == 0)


def _rate(treatment: Treatment, written: Sequence[_Placed]) -> tuple[_Placed, _Placed] | None:
    """A rate that counts degrees Fahrenheit where all temperatures are in degC, or kelvin and degC
    where all are in degF."""
    systems = {"degF" in each[0].unit.symbol for each in written}
    if len(systems) != 1:
        return None
    for segment in treatment.entry.segments:
        rate = getattr(segment, "rate", None)
        if (
            isinstance(rate, Quantity)
            and ("degF" in rate.unit.symbol) not in systems
            and rate.to("degC/h" if "degF" in rate.unit.symbol else "degF/h") % _ROUND
        ):
            return (rate, segment.place("rate")), written[0]
    return None


def _written(treatment: Treatment) -> list[_Placed]:
    """Where heating and cooling go; the hold itself is judged by its plausible range."""
    return [
        (segment.to, segment.place("to"))
        for segment in treatment.entry.segments
        if isinstance(segment, Heat | Cool) and segment.to is not None
    ]
