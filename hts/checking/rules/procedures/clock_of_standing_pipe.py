"""Top and bottom are asked for on pipe that lies."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.plain_words import compiled
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.procedure import Procedure

_LINE = "  holding spread   at most 25 K"


def _with(line: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, f"{_LINE}\n  {line}"),)


RULE = Rule(
    "R135",
    "clock-of-standing-pipe",
    "warning",
    summary="A procedure that asks for a thermocouple at 6:00, or at 6:00 and 12:00, of pipe that stands alone; or, of pipe "
    "that lies, for others and never for the bottom.",
    why="On a riser these are two points of the compass; below, where pipe that lies stays cold, nothing is asked for any "
    "more.",
    fix="Write `axis = horizontal`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _with("requires control at 6:00 when axis = vertical"),
            base="owner",
            at="axis = vertical",
            says="asks for `control at 6:00` of pipe that stands",
        ),
        Bad(
            _with("requires monitor soak edge at 6:00 when nominal_size >= 8 and axis = vertical"),
            base="owner",
            at="nominal_size >= 8 and axis = vertical",
            says="soak edge at 6:00` of pipe that stands",
        ),
        Bad(
            _with("requires monitor weld count 2 when axis = vertical"),
            base="owner",
            at="axis = vertical",
            says="asks for `monitor weld count 2` of pipe that stands, and not where it lies",
        ),
        Bad(
            _with("requires control at 3:00, 9:00 when axis = horizontal"),
            base="owner",
            at="axis = horizontal",
            says="asks for `control at 3:00, 9:00` of pipe that lies, and nowhere for 6:00",
        ),
        Bad(
            _with("requires control at 6:00 when axis != horizontal"),
            base="owner",
            at="axis != horizontal",
            says="control at 6:00` of pipe that stands",
        ),
    ),
    good=(
        Good(
            _with("requires monitor weld count 1 when axis = vertical\n  requires monitor weld count 2 when axis = horizontal"),
            base="owner",
        ),
        Good(
            _with("requires control at 12:00 when axis = horizontal\n  requires control at 6:00 when nominal_size >= 8"),
            base="owner",
        ),
        Good(_with("requires control at 6:00 when axis = horizontal"), base="owner"),
        Good(_with("requires control at 12:00, 4:00, 8:00 when axis = vertical"), base="owner"),
        Good(_with("requires monitor weld at 12:00, 3:00, 6:00, 9:00 when axis = vertical"), base="owner"),
        Good(_with("requires control at 12:00 and 6:00"), base="owner"),
        Good(
            _with('requires control at 12:00 and 6:00 when axis = vertical, because "The sun stands in the south"'),
            base="owner",
        ),
    ),
)  # fmt: skip

_CLOCK = r"(?<![\d:])(\d{1,2}:\d\d)(?![\d:])"
_STANDS_ALONE = r"axis *(?:= *vertical|!= *horizontal)$"
_USES = {"monitor", "monitors", "control", "controls", "spare"}
_LYING = r"^axis *= *horizontal\b(?!.*\bor\b)"
_LARGE = r"\b(?:nominal_size|outside_diameter) *>"
_BOTTOM = r"(?<![\d:])(?:[5-6]:\d\d|7:00)(?![\d:])"
_STANDING = r"\baxis *= *vertical\b|\baxis *!= *horizontal\b"


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for text, when, at, note in _lines(procedure):
            clocks = set(compiled(_CLOCK).findall(text))
            # At the top of small pipe one may control alone.
            large = "12:00" not in clocks or compiled(_LARGE).search(when)
            if (
                clocks
                and large
                and not note
                and compiled(_LYING).search(when)
                and not _has_bottom(procedure, text)
            ):
                message = (
                    f"{procedure.name} asks for `{text}` of pipe that lies, and nowhere for 6:00"
                )
                case.add(RULE.found(message, at, address=procedure.name, basis=RULE.basis))
            if not note and not clocks and compiled(_STANDS_ALONE).match(when.strip()):
                if _USES & set(text.split()[:2]) and not _asked_elsewhere(procedure, text, at):
                    message = f"{procedure.name} asks for `{text}` of pipe that stands, and not where it lies"
                    case.add(RULE.found(message, at, address=procedure.name, basis=RULE.basis))
                continue
            if note or "6:00" not in clocks or not clocks <= {"6:00", "12:00"}:
                continue
            if compiled(_STANDING).search(when) and " or " not in when:
                case.add(
                    RULE.found(
                        f"{procedure.name} asks for `{text}` of pipe that stands",
                        at,
                        address=procedure.name,
                        basis=RULE.basis,
                    )
                )


def _has_bottom(procedure: Procedure, text: str) -> bool:
    """Whether any line for the same use of thermocouples asks for the bottom."""
    use = text.split()[0]
    texts = [line.what.text for line in procedure.requires if line.what is not None]
    return any(each.split()[0] == use and compiled(_BOTTOM).search(each) for each in texts)


def _asked_elsewhere(procedure: Procedure, text: str, at: Span) -> bool:
    """Whether another line is for the same thermocouples."""
    use = text.split(" count ")[0]
    return any(
        line.what is not None
        and line.what.text.startswith(use)
        and (line.when is None or line.place("when").start != at.start)
        for line in procedure.requires
    )


def _lines(procedure: Procedure) -> Iterator[tuple[str, str, Span, str | None]]:
    lines: tuple[Any, ...] = (*procedure.requires, *procedure.prefers)
    for line in lines:
        if line.sound and line.what is not None and line.when is not None:
            yield line.what.text, line.when.text, line.place("when"), line.note
