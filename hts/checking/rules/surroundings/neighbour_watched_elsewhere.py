"""What watches a nearby item sits at that item."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import sits_at
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import MONITORS, Joint, Thermocouple
from hts.language.vocabulary.joint import Nearby

_SUPPORT = '  support    "rod hanger" 1.2 m upstream fixed\n'
_ITEM = '  nearby     "gate valve" 800 mm upstream at most 200 degC'
_T6 = "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
_T9 = "    T9   monitors nearby item    at 6:00,  {}     channel 9\n"


def _watched(at: str) -> tuple[tuple[str, str], ...]:
    return (
        (_SUPPORT, f"{_ITEM} monitored by T9\n{_SUPPORT}"),
        (_T6, _T6 + _T9.format(at)),
    )


RULE = Rule(
    "N109",
    "neighbour-watched-elsewhere",
    "warning",
    summary="A thermocouple for a nearby item that is at another distance or on another side than "
    "the item.",
    why="The item overheats while the thermocouple shows a cool pipe somewhere else.",
    fix="Correct the place of the thermocouple or of the item.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _watched("800 mm downstream"),
            at="800 mm downstream",
            says="800 mm (31.5 in) … 800 mm (31.5 in)",
        ),
    ),
    edges=(
        Edge(
            (
                (
                    '  support    "rod hanger" 1.2 m upstream fixed\n',
                    '  nearby     "gate valve" 800 mm upstream at most 200 degC monitored by T9\n  support    "rod hanger" {} upstream fixed\n',
                ),
                (
                    "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n",
                    "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n    T9   monitors nearby item    at 6:00,  {} upstream     channel 9\n",
                ),
            ),
            keeps="0.88 m",
            breaks="0.89 m",
            says="0.89 m (2.92 ft) … 800 mm (31.5 in)",
        ),
    ),
    good=(Good(_watched("780 mm upstream")),),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.offset",
            "joint.nearby.where",
            "a thermocouple for a nearby item sits at it, on its side",
        ),
        Agreement(
            "joint.nearby.monitored by",
            "joint.thermocouples.thermocouple.monitors",
            "what watches a nearby item monitors it",
        ),
    ),
)

_NO_ITEM = (
    'name the item, `nearby "…" 800 mm upstream at most 200 degC`, or correct what it monitors'
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    items = joint.entry.nearby
    watching = [
        tc
        for tc in joint.thermocouples
        if tc.duty == MONITORS and tc.entry.monitors == "nearby item"
    ]
    if not items and not watching:
        return
    for item in items:
        if item.monitored is None:
            continue
        tc = next((tc for tc in joint.thermocouples if tc.tag == item.monitored.name), None)
        if tc is not None and (tc.entry.monitors != "nearby item" or not sits_at(tc, item)):
            _tell(case, tc, [item])
    named = {item.monitored.name for item in items if item.monitored is not None}
    for tc in watching:
        if tc.tag not in named and not any(sits_at(tc, item) for item in items):
            _tell(case, tc, items)


def _tell(case: Case, tc: Thermocouple, items: list[Nearby]) -> None:
    if not items:
        message = f"{tc.tag} monitors a nearby item; the joint names none"
    elif tc.entry.monitors != "nearby item":
        message = f"{tc.tag} is meant to watch {items[0].what} and does not monitor a nearby item"
    else:
        where = tc.entry.offset
        place = f"{where.distance.both()} {where.side}" if where is not None else "the weld"
        others = ", ".join(f"{i.what} at {i.where.distance.both()} {i.where.side}" for i in items)
        message = f"{tc.tag} watches a nearby item at {place}; the nearest is {others}"
    field = "offset" if tc.entry.says("offset") else "name"
    case.add(
        RULE.found(
            message,
            tc.place(field if tc.entry.monitors == "nearby item" and items else "monitors"),
            address=tc.address,
            others=[Label(item.place("where"), item.what) for item in items],
            help="" if items else _NO_ITEM,
            basis=RULE.basis,
        )
    )
