"""The supply is of the kind the heating method needs."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.equipment import FEEDS

#: Methods that no supply feeds.
_FLAMES = ("gas",)

RULE = Rule(
    "E109",
    "supply-for-other-method",
    "error",
    summary="An induction supply for resistance heaters, a transformer for an induction coil, or "
    "any supply for a flame.",
    why="The one cannot feed the other: the job stops when everything is already in place.",
    fix="Name the supply that is used, or the method.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((("kind      transformer", "kind      induction supply"),), at="induction supply"),
        Bad(
            (
                ("heating by resistance", "heating by gas"),
                (" power 9 kW heaters 2\n    zone bottom", "\n    zone bottom"),
                ("from 3:00 to 9:00 power 9 kW heaters 2", "from 3:00 to 9:00"),
            ),
            at="transformer",
            says="PS1 is a transformer; W12 is heated by gas",
        ),
    ),
    good=(Good((("kind      transformer", "kind      generator"),)),),
    agrees=(Agreement("power source.kind", "joint.heating.by", "the kind the method needs"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    source, heating = treatment.power_source, treatment.joint.entry.heating
    if source is None or source.kind is None or heating is None or heating.method is None:
        return
    fitting = FEEDS.get(heating.method, () if heating.method in _FLAMES else None)
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
