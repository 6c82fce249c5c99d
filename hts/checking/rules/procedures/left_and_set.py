"""What a procedure leaves to the job it does not set itself."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.plain_words import compiled
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.rule import Agreement, Bad, Good, Rule

_LINE = "  holding spread   at most 25 K"


def _leaves(text: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, f'{_LINE}\n  leaves to the job "{text}"'),)


RULE = Rule(
    "R137",
    "left-and-set",
    "warning",
    summary="A procedure that leaves to the job what lines of its own limit: hold temperatures, rates, preheat.",
    why="The job decides freely what the owner has decided, and each can point to the procedure.",
    fix="Leave out one of the two, or say which part of it is left.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _leaves("Hold times"),
            base="owner",
            at='leaves to the job "Hold times"',
            says="P-07 leaves `Hold times` to the job, and limits the hold time itself",
        ),
    ),
    good=(
        Good(_leaves("Number, size and circuit of the heaters"), base="owner"),
        Good(_leaves("Hold times within the limits above"), base="owner"),
        Good(_leaves("Order of the holds"), base="owner"),
    ),
    agrees=(Agreement("procedure.leaves to the job", "procedure.hold time", "not limited as well"),),
)  # fmt: skip

_NAMED = r"^(?:the )?([a-z][a-z -]*?)s?$"


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        limited = {line.quantity: line for line in procedure.limits}
        for text in procedure.left_to_job:
            found = compiled(_NAMED).match(text.strip()) if not denied(text) else None
            line = limited.get(found[1].lower()) if found is not None else None
            if line is not None:
                case.add(
                    RULE.found(
                        f"{procedure.name} leaves `{text}` to the job, and limits the {line.quantity} itself",
                        procedure.place("left_to_job"),
                        address=procedure.name,
                        others=[Label(line.place(), "here")],
                        basis=RULE.basis,
                    )
                )
