"""What a procedure allows, its reason does not speak against."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.rule import Agreement, Bad, Good, Rule

#: What is denied in favour of what is allowed: no crack was found, nothing speaks against it.
_IN_FAVOUR = re.compile(
    r"\b(?:no|not|never|nothing|without|none)\b[^,;]*\b(?:cracks?|cracked|harm\w*|damage\w*|problems?|trouble"
    r"|difference|objections?|against|needed|necessary|failed|worse|defects?)\b",
    re.IGNORECASE,
)
_FORBIDS = "  forbids          lower-temperature hold"

RULE = Rule(
    "R133",
    "allowed-against-its-reason",
    "warning",
    summary="Something a procedure allows, for a reason that speaks against it.",
    why="`forbids` has become `allows`: every job may now do what the owner has learned not to do.",
    fix="Write `forbids`, or the reason why it is allowed.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_FORBIDS, '  allows lower-temperature hold because "Hardness was not reached"'),),
            base="owner",
            at='"Hardness was not reached"',
            says="allows lower-temperature hold because of `Hardness was not reached`",
        ),
        Bad(
            ((_FORBIDS, '  allows heating by gas because "No open flame in a closed space"'),),
            base="owner",
            at='"No open flame in a closed space"',
        ),
    ),
    good=(
        Good(
            (
                (
                    _FORBIDS,
                    '  allows lower-temperature hold because "No cracks on six welds of 2019"',
                ),
            ),
            base="owner",
        ),
        Good(
            (
                (
                    _FORBIDS,
                    '  allows lower-temperature hold because "Hardness was reached on trials"',
                ),
            ),
            base="owner",
        ),
    ),
    agrees=(Agreement("procedure.allows.because", "procedure.allows.option", "speaks for it"),),
)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for line in procedure.allows:
            note = line.note
            if not line.sound or not isinstance(note, str) or not denied(note):
                continue
            if _IN_FAVOUR.search(note):
                continue
            what = line.option or "that"
            case.add(
                RULE.found(
                    f"{procedure.name} allows {what} because of `{note}`, which speaks against it",
                    line.place("note"),
                    address=procedure.name,
                    others=[Label(line.place(), "allowed")],
                    basis=RULE.basis,
                )
            )
