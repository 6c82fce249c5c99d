"""An amendment amends the revision of the procedure that is in force."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule

_FOLLOWS = "follows      P-07"
_AMENDMENT = (
    "procedure P-07A {\n  revision 1 on 2026-05-01 status for construction\n"
    "  amends P-07 revision 2\n  hold time at most 5 h replaces P-07.hold-time\n}\n\n"
    "procedure P-07 "
)

RULE = Rule(
    "R115",
    "amendment-of-other-revision",
    "error",
    summary="A procedure that amends one the job does not follow, or another revision of it.",
    why="What it replaces is not what is in force: nobody knows which limit counts.",
    fix="Follow both, and have the amendment issued anew for the present revision.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (_FOLLOWS, "follows      P-07A, P-07"),
                ("procedure P-07 ", _AMENDMENT.replace("revision 2", "revision 1")),
            ),
            base="procedure",
            at="amends",
        ),
    ),
    good=(
        Good(
            ((_FOLLOWS, "follows      P-07A, P-07"), ("procedure P-07 ", _AMENDMENT)),
            base="procedure",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    followed = {procedure.name: procedure for procedure in case.spec.procedures}
    for procedure in case.spec.procedures:
        for line in procedure.amends:
            other = followed.get(line.procedure.name)
            revision = other.revision.name if other is not None and other.revision else ""
            # A library of procedures is followed by nobody yet.
            if revision == line.revision or (other is None and case.spec.file.job is None):
                continue
            what = (
                f"revision {revision or 'unknown'} is followed"
                if other is not None
                else "the job does not follow it"
            )
            case.add(
                RULE.found(
                    f"{procedure.name} amends {line.procedure.name} revision {line.revision}, and "
                    f"{what}",
                    line.place(),
                    address=procedure.name,
                    others=[Label(other.place("name"), "in force")] if other is not None else [],
                )
            )
