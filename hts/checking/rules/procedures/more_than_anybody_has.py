"""A procedure asks for no more zones and thermocouples than a weld can have."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import asked_for, by_quantity, own_procedures, place
from hts.checking.rules.rule import Edge, Good, Rule

_LINE = "  holding spread   at most 25 K"


def _with(line: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, f"{_LINE}\n  {line}"),)


RULE = Rule(
    "R150",
    "more-than-anybody-has",
    "warning",
    summary="A procedure that asks every weld for more than 12 zones or controlling thermocouples, or for more than "
    "24 thermocouples.",
    why="A doubled digit asks for what no controller has channels for: nobody meets it, and the line is waived "
    "together with what was meant.",
    fix="Check the digits; where it is meant, say why with `because`.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            _with("thermocouples at least {}"),
            keeps="24",
            breaks="25",
            base="owner",
            says="thermocouples at least 25; usual is at most about 24",
        ),
        Edge(
            _with("zones at least {}"),
            keeps="12",
            breaks="13",
            base="owner",
            says="zones at least 13; usual is at most about 12",
        ),
    ),
    good=(Good(_with('zones at least 16, because "Columns of 6 m across"'), base="owner"),),
)

_USUAL = {
    "zones": 12,
    "control thermocouples": 12,
    "monitoring thermocouples": 24,
    "thermocouples": 24,
}


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for quantity, usual in _USUAL.items():
            for row in by_quantity(procedure).get(quantity, ()):
                asked = row.minimum.text.strip() if row.minimum is not None else ""
                if asked.isdecimal() and int(asked[:9]) > usual and not row.source.note:
                    at = place(procedure, row, "minimum")
                    message = (
                        f"{quantity} {asked_for(row, 'minimum')}; usual is at most about {usual}"
                    )
                    case.add(RULE.found(message, at, address=procedure.name, basis=RULE.basis))
