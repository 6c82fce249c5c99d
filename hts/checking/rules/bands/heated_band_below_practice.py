"""A heated band sized by another rule is no narrower than local heating needs."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, shown_bound
from hts.checking.rules.helpers.places import goes_round, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.limits import book, demands

_BOOK, _ROW = "local-heating", "heated-band-hb1"
_ALONE = (
    "asme-b31.3 edition 2018, local-heating",
    "asme-b31.3 edition 2018\n  follows      P-07",
)
#: The owner's own widths, which practice does not govern.
_OWN = (
    "recorder R1 {",
    """\
procedure P-07 "Widths of local heating" {
  revision       2 on 2026-03-01 status for construction
  heated band    at least 300 mm total
  gradient band  at least 600 mm total
}

recorder R1 {""",
)
_INSULATED = ("gradient band  by rule", "gradient band  700 mm total")
_CONTROL = (
    ("at 12:00, 287 mm", "at 12:00, 140 mm"),
    ("at 6:00,  287 mm", "at 6:00,  140 mm"),
)

RULE = Rule(
    "B120",
    "heated-band-below-practice",
    "warning",
    summary="A heated band narrower than local-heating practice asks for, in a job that practice "
    "does not govern.",
    why="Codes size the band by other rules or not at all; too narrow a band bends the pipe wall.",
    fix="Widen the band, or put the job under local-heating and state in a procedure what "
    "replaces its row.",
    source="WRC Bulletin 452; National Board Inspection Code Part 3 (as quoted elsewhere)",
    basis="published",
    edges=(
        Edge(
            (
                _ALONE,
                _OWN,
                ("heated band    by rule", "heated band    {} total"),
                ("gradient band  by rule", "gradient band  700 mm total"),
                ("at 12:00, 287 mm", "at 12:00, 158 mm"),
                ("at 6:00,  287 mm", "at 6:00,  158 mm"),
            ),
            keeps="316 mm",
            breaks="315 mm",
            says="is 315 mm (12.4 in) … to 315.6 mm (12.43 in)",
        ),
    ),
    good=(
        Good(
            (
                _ALONE,
                _OWN,
                ("heated band    by rule", "heated band    340 mm total"),
                _INSULATED,
                ("at 12:00, 287 mm", "at 12:00, 170 mm"),
                ("at 6:00,  287 mm", "at 6:00,  170 mm"),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or not goes_round(joint) or not treated(joint):
        return
    if any(authority.name == _BOOK for authority in case.authorities):
        return
    limits = limits_of(case, joint)
    width, soak = limits.band("heated band"), limits.band("soak band")
    # A band narrower than the soak band is told as that.
    if width is None or soak is None or width < soak:
        return
    rows = [limit for limit in book(_BOOK).limits if limit.id == _ROW]
    facts = {side: {**known, "soak_band": soak} for side, known in limits.facts.items()}
    found = demands(rows, facts)["heated band"].setter("minimum")
    if found is None or not isinstance(found.minimum, Quantity) or width >= found.minimum:
        return
    sized = limits.derived("heated band", "minimum")
    case.add(
        RULE.found(
            f"the heated band of {joint.name} is {width.both()} in total, but "
            f"{cited(found.limit.source)} comes to {shown_bound(found, 'minimum', width)}",
            heating.place("heated_band"),
            address=f"{joint.address}/heating",
            notes=[
                *([f"sized by {cited(sized.demand.limit.source)}"] if sized is not None else []),
                *found.limit.source.cautions,
            ],
        )
    )
