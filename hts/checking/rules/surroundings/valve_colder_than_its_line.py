"""What sits in a steam line bears steam."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_ROD = '  support    "rod hanger" 1.2 m upstream fixed\n'
_ITEM = '  nearby     "{}" 1.4 m downstream at most {} protected\n'
_STEAM = ("  made in    field\n", "  made in    field\n  service    steam\n")
#: Steam is no colder at any pressure of a line.
_LEAST = Quantity.of(100, "degC", TEMPERATURE)
_IN_LINE = re.compile(r"\bvalve|\bflange|\bgasket|\bpacking|\btrap\b|\bstrainer", re.IGNORECASE)

RULE = Rule(
    "N134",
    "valve-colder-than-its-line",
    "warning",
    summary="A valve, flange, gasket or trap in a steam line that is said to bear less than 100 degC.",
    why="In service it is hotter all the time: figure or unit is that of something else, and the real "
    "limit is watched by nobody.",
    fix="Copy the limit from the data sheet of the item.",
    source="steam at the pressure of the air is of 100 degC",
    basis="derived",
    edges=(
        Edge(
            (_STEAM, (_ROD, _ROD + _ITEM.format("steam gate valve, seat", "{}"))),
            keeps="100 degC",
            breaks="99 degC",
            says="steam gate valve, seat is to stay below 99 degC (210 degF), and W12 carries steam",
        ),
    ),
    good=(Good((_STEAM, (_ROD, _ROD + _ITEM.format("cable tray", "70 degC")))),),
    agrees=(Agreement("joint.nearby.at most", "joint.service", "what it bears in service"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if "steam" not in joint.entry.service:
        return
    for item in joint.entry.nearby:
        if item.at_most is None or item.at_most >= _LEAST or not _IN_LINE.search(item.what):
            continue
        case.add(
            RULE.found(
                f"{item.what} is to stay below {item.at_most.both()}, and {joint.name} carries steam",
                item.place("at_most"),
                address=joint.address,
                others=[Label(item.place("what"), "in the line")],
            )
        )
