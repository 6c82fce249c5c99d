"""The supply is of the kind the heating method needs."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.equipment import FEEDS

RULE = Rule(
    "E109",
    "supply-for-other-method",
    "error",
    summary="An induction supply for resistance heaters, or a transformer for an induction coil.",
    why="The one cannot feed the other: the job stops when everything is already in place.",
    fix="Name the supply that is used, or the method.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("kind      transformer", "kind      induction supply"),), at="induction supply"),),
    good=(Good((("kind      transformer", "kind      generator"),)),),
    agrees=(Agreement("power source.kind", "joint.heating.by", "the kind the method needs"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    source, heating = treatment.power_source, treatment.joint.entry.heating
    if source is None or source.kind is None or heating is None or heating.method is None:
        return
    fitting = FEEDS.get(heating.method)
    if fitting is not None and source.kind not in fitting:
        case.add(
            RULE.found(
                f"{source.name} is an {source.kind}; {treatment.joint.name} is heated by "
                f"{heating.method}"
                if source.kind[0] == "i"
                else f"{source.name} is a {source.kind}; {treatment.joint.name} is heated by "
                f"{heating.method}",
                source.place("kind"),
                address=source.name,
                others=[Label(heating.place("method"), "the method")],
                basis=RULE.basis,
            )
        )
