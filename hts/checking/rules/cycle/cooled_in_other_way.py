"""What the weld cools in is there, and is slow enough for its metal."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.metals import hardens
from hts.checking.rules.helpers.steps import FROM_ABOVE, heats
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool

_COOL = "  cool  in still air"

RULE = Rule(
    "Y133",
    "cooled-in-other-way",
    "warning",
    summary="A weld heated where it is that cools in the furnace, or one of a steel that hardens "
    "that cools in moving air.",
    why="There is no furnace to cool in; and a draught on a hot weld of such steel cools it "
    "unevenly and faster than the cycle allows.",
    fix="Write what it cools in: `insulation` or `still air`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_COOL, "  cool  in furnace"),), at="furnace", says="heated by resistance"),
        Bad(((_COOL, "  cool  in moving air"),), at="moving air"),
    ),
    good=(Good(((_COOL, "  cool  in insulation"),)),),
    agrees=(Agreement("cycle.cool.in", "joint.heating.by", "in the furnace it was heated in"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle, heating = treatment.cycle, treatment.joint.entry.heating
    if not heats(treatment) or (cycle is not None and cycle.purpose in FROM_ABOVE):
        return
    for segment in treatment.entry.segments:
        if not isinstance(segment, Cool):
            continue
        others = []
        if segment.medium == "furnace" and heating is not None and heating.method != "furnace":
            message = f"{treatment.joint.name} cools in a furnace and is heated by {heating.method}"
            others = [Label(heating.place("method"), "the method")]
        elif segment.medium == "moving air" and hardens(treatment.joint):
            message = f"{treatment.joint.name} is of a steel that hardens, and cools in moving air"
        else:
            continue
        case.add(
            RULE.found(
                message,
                segment.place("medium"),
                address=treatment.address,
                others=others,
                basis=RULE.basis,
            )
        )
