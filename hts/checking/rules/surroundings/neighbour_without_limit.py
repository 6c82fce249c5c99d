"""What stands close by says how hot it may get."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import half, limits_of, sits_at
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Joint, Thermocouple
from hts.language.vocabulary.joint import Nearby

_SUPPORT = '  support    "rod'
_T6 = "    T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"

RULE = Rule(
    "N106",
    "neighbour-without-limit",
    "advice",
    summary="An item within the insulated width that has no stated temperature limit and is "
    "neither removed nor protected, or one that a thermocouple watches and that has none.",
    why="Seats, gaskets, coatings and instruments fail far below the temperature of the band.",
    fix="State what it withstands (`at most 200 degC`), or remove or protect it.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_SUPPORT, f'  nearby     "gate valve" 350 mm downstream\n{_SUPPORT}'),),
            at="350 mm downstream",
        ),
        Bad(
            (
                (
                    _SUPPORT,
                    f'  nearby     "gate valve" 800 mm upstream protected monitored by T9\n{_SUPPORT}',
                ),
                (
                    _T6,
                    f"{_T6}    T9   monitors nearby item    at 6:00,  800 mm upstream     channel 9\n",
                ),
            ),
            at="800 mm upstream",
            says="T9 watches gate valve",
        ),
    ),
    good=(
        Good(((_SUPPORT, f'  nearby     "gate valve" 350 mm downstream removed\n{_SUPPORT}'),)),
        Good(((_SUPPORT, f'  nearby     "gate valve" 2 m downstream\n{_SUPPORT}'),)),
    ),
    edges=(
        # Half the gradient band of 810.3 mm.
        Edge(
            ((_SUPPORT, f'  nearby     "gate valve" {{}} downstream\n{_SUPPORT}'),),
            keeps="406 mm",
            breaks="405 mm",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.entry.nearby or not treated(joint):
        return
    width = limits_of(case, joint).band("gradient band")
    for item in joint.entry.nearby:
        if item.removed or item.at_most is not None:
            continue
        tc = _watch(joint, item)
        covered = width is not None and item.where.distance <= half(width)
        if tc is not None:
            message = f"{tc.tag} watches {item.what}"
        elif covered and not item.protected:
            message = f"{item.what} lies under the insulation of {joint.name}"
        else:
            continue
        case.add(
            RULE.found(
                f"{message}; nothing says how hot it may get",
                item.place("where"),
                address=joint.address,
                others=[Label(tc.place("name"), "watches it")] if tc is not None else [],
                basis=RULE.basis,
            )
        )


def _watch(joint: Joint, item: Nearby) -> Thermocouple | None:
    """The thermocouple that watches an item: the one it names, or one that sits at it."""
    named = item.monitored.name if item.monitored is not None else None
    return next(
        (
            tc
            for tc in joint.thermocouples
            if tc.entry.monitors == "nearby item" and (tc.tag == named or sits_at(tc, item))
        ),
        None,
    )
