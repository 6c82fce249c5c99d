"""A procedure is for the walls its title speaks of."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.rule import Agreement, Bad, Good, Rule

_TITLE = 'procedure P-07 "Local heat treatment of piping welds" {'
_SCOPE = "  applies to wall      at most 75 mm\n"


def _titled(title: str, *lines: str) -> tuple[tuple[str, str], ...]:
    return (
        (_TITLE, f'procedure P-07 "{title}" {{'),
        (_SCOPE, "\n".join((*(f"  {line}" for line in lines), ""))),
    )


RULE = Rule(
    "R136",
    "scope-of-other-title",
    "warning",
    summary="A procedure or an amendment for heavy welds, by its title, that applies below a wall; or one for thin ones that "
    "applies above it.",
    why="One sign turned round gives the heavy welds the rules of the thin ones, and the other way round.",
    fix="Turn the sign, or correct the title.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _titled("Amendment for heavy headers", "applies when thicker_wall < 30 mm"),
            base="owner",
            at="thicker_wall < 30 mm",
            says="P-07 is titled for heavy welds, and applies when thicker_wall < 30 mm",
        ),
        Bad(
            _titled("Thin-walled tubing", "applies when thicker_wall >= 8 mm"),
            base="owner",
            at="thicker_wall >= 8 mm",
            says="titled for thin welds, and applies when thicker_wall >= 8 mm",
        ),
    ),
    good=(
        Good(_titled("Amendment for heavy headers", "applies when thicker_wall > 30 mm"), base="owner"),
        Good(_titled("Thin-walled tubing", "applies when thicker_wall < 8 mm"), base="owner"),
        Good(_titled("Thin and heavy headers", "applies when thicker_wall < 60 mm"), base="owner"),
        Good(
            _titled("Heavy headers", "applies when thicker_wall > 30 mm and thicker_wall < 120 mm"),
            base="owner",
        ),
    ),
    agrees=(Agreement("procedure.applies when", "procedure.title", "the walls of the words"),),
)  # fmt: skip

_HEAVY = re.compile(r"\b(?:heavy|thick)(?:[- ]walled)?\b", re.IGNORECASE)
_THIN = re.compile(r"\b(?:thin|light)(?:[- ]walled)?\b", re.IGNORECASE)
_BELOW = re.compile(r"^(?:t|wall|thicker_wall|thinner_wall) *<=? *[\d./ ]+ *(?:mm|in|cm)$")
_ABOVE = re.compile(r"^(?:t|wall|thicker_wall|thinner_wall) *>=? *[\d./ ]+ *(?:mm|in|cm)$")


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        title = procedure.title
        if not isinstance(title, str) or denied(title):
            continue
        heavy, thin = bool(_HEAVY.search(title)), bool(_THIN.search(title))
        if heavy == thin:
            continue
        for line in procedure.conditions:
            text = line.condition.text.strip() if line.condition is not None else ""
            if (_BELOW if heavy else _ABOVE).match(text):
                case.add(
                    RULE.found(
                        f"{procedure.name} is titled for {'heavy' if heavy else 'thin'} welds, and applies when {text}",
                        line.place("condition"),
                        address=procedure.name,
                        others=[Label(procedure.place("title"), "its title")],
                        basis=RULE.basis,
                    )
                )
