"""An amendment is made after the procedure it amends."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule

_AMENDMENT = (
    "procedure P-07A {{\n  revision 1 on {} status for construction\n  amends P-07 revision 2\n"
    "  hold time at least 2 h\n}}\n\nprocedure P-07 "
)

RULE = Rule(
    "R142",
    "amendment-before-its-procedure",
    "warning",
    summary="An amendment that is older than the revision of the procedure it amends.",
    why="Nobody can have amended what was not yet written: one of the dates is a slip, or the amendment is of an earlier "
    "revision, which the present one may have taken in.",
    fix="Correct the date, or the revision that is amended.",
    source="derived from the two dates",
    basis="derived",
    edges=(
        Edge(
            (("procedure P-07 ", _AMENDMENT.replace("{}", "{{}}").format()),),
            keeps="2026-03-01",
            breaks="2026-02-28",
            base="owner",
            says="P-07A of 2026-02-28 amends revision 2 of P-07, which is of 2026-03-01",
        ),
    ),
    agrees=(
        Agreement(
            "procedure.revision.on", "procedure.amends.procedure", "not before what it amends"
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    procedures = {each.name: each for each in (*case.spec.procedures, *case.spec.file.procedures)}
    for procedure in case.spec.file.procedures:
        own = procedure.revision
        for line in procedure.amends if own is not None and own.sound else ():
            other = procedures.get(line.procedure.name)
            revision = other.revision if other is not None else None
            if (
                own is None
                or revision is None
                or not revision.sound
                or revision.name != line.revision
            ):
                continue
            if own.on is not None and revision.on is not None and own.on < revision.on:
                case.add(
                    RULE.found(
                        f"{procedure.name} of {own.on} amends revision {revision.name} of "
                        f"{line.procedure.name}, which is of {revision.on}",
                        own.place("on"),
                        address=procedure.name,
                        others=[Label(revision.place("on"), "what it amends")],
                    )
                )
