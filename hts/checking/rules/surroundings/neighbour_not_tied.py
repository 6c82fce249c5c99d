"""A limit of something nearby is tied to the thermocouple that sits at it."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import sits_at
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import MONITORS, Joint

_SUPPORT = '  support    "rod hanger" 1.2 m upstream fixed\n'
_T6 = "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"


def _item(tail: str, watched: str) -> tuple[tuple[str, str], ...]:
    nearby = f'  nearby     "gate valve" 800 mm upstream at most 200 degC{tail}\n'
    more = f"    T9   monitors {watched}  at 6:00,  800 mm upstream     channel 9\n"
    return ((_SUPPORT, nearby + _SUPPORT), (_T6, _T6 + more))


RULE = Rule(
    "N120",
    "neighbour-not-tied",
    "advice",
    summary="A thing nearby with a temperature limit and a thermocouple at its very place, of which "
    "neither says that the one watches the other.",
    why="The record is judged by what the text ties together: the thing overheats while its "
    "reading is taken for that of plain pipe.",
    fix="Write `monitors nearby item` at the thermocouple, and `monitored by` and its tag at the "
    "thing.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_item("", "nearby item"), at="gate valve"),
        Bad(_item(" protected", "base metal"), at="base metal"),
    ),
    good=(
        Good(_item(" monitored by T9", "nearby item")),
        Good(_item(" protected", "nearby item")),
    ),
    agrees=(
        Agreement(
            "joint.nearby.where",
            "joint.thermocouples.thermocouple.monitors",
            "what sits at a nearby item watches it",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.entry.nearby or not treated(joint):
        return
    for item in joint.entry.nearby:
        if item.at_most is None or item.removed or item.monitored is not None:
            continue
        there = [tc for tc in joint.thermocouples if tc.duty == MONITORS and sits_at(tc, item)]
        watching = [tc for tc in there if tc.entry.monitors == "nearby item"]
        plain = [tc for tc in there if tc.entry.monitors == "base metal"]
        if watching and not item.protected:
            message = f"{watching[0].tag} sits at {item.what}, which is not said to be monitored"
            at, other = item.place("what"), Label(watching[0].place("name"), "the thermocouple")
        elif plain and not watching:
            message = f"{plain[0].tag} sits at {item.what} and monitors the base metal"
            at, other = plain[0].place("monitors"), Label(item.place("where"), item.what)
        else:
            continue
        case.add(RULE.found(message, at, address=joint.address, others=[other], basis=RULE.basis))
