"""A part leaves its furnace when control has ended, and enters before it begins."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import broken
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "Y144",
    "unloaded-under-control",
    "warning",
    summary="A furnace that may be opened hotter than control of the cooling ends, or charged hotter than "
    "control of the heating begins.",
    why="The part goes through the rest of the controlled range in the open, or at a jump.",
    fix="Unload at the end of control at the most, and charge at its start at the most.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (("  rate margin  ", "  unload at most {}\n  rate margin  "),),
            keeps="300 degC",
            breaks="301 degC",
            says="unloaded at 301 degC (574 degF) … ends at 300 degC (572 degF)",
        ),
        Edge(
            (("  rate margin  ", "  charge at most {}\n  rate margin  "),),
            keeps="300 degC",
            breaks="301 degC",
            says="charged at 301 degC (574 degF) … begins at 300 degC (572 degF)",
        ),
    ),
    agrees=(
        Agreement("cycle.unload at most", "cycle.end of control", "no hotter"),
        Agreement("cycle.charge at most", "cycle.start of control", "no hotter"),
    ),
)
#: The figure, what it is held to, the quantity that books limit, and words of the message.
_ENDS = (
    ("furnace_at", "start_control", "charge temperature", "charged", "begins"),
    ("unload_at", "end_control", "unload temperature", "unloaded", "ends"),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if cycle is None:
        return
    limits = case.limits(treatment.joint, treatment)
    for field, other, quantity, done, way in _ENDS:
        figure, bound = getattr(cycle, field), getattr(cycle, other)
        if figure is None or bound is None or figure <= bound:
            continue
        governing = limits.of(quantity)
        if governing is not None and broken(governing, "maximum", figure):
            continue
        case.add(
            RULE.found(
                f"the furnace may be {done} at {figure.both()}, and control {way} at {bound.both()}",
                cycle.place(field),
                address=treatment.address,
                others=[Label(cycle.place(other), "control")],
                basis=RULE.basis,
            )
        )
