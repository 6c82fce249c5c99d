"""Insulation stays on as long as the cooling is controlled."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "Y147",
    "stripped-under-control",
    "warning",
    summary="Insulation that may come off hotter than control of the cooling ends.",
    why="From there the weld cools in the open: no heater keeps the rate that is still asked for.",
    fix="Strip below the end of control.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (
                ("end of control      300 degC", "end of control      100 degC"),
                ("  cool  to 315 degC   at most 200 degC/h\n  cool  in still air\n",
                 "  cool  to 100 degC   at most 200 degC/h\n"),
                ("  rate margin  ",
                 "  finally power off\n  remove insulation below {}\n  rate margin  "),
            ),
            keeps="100 degC",
            breaks="101 degC",
            says="may come off below 101 degC (214 degF), and control ends at 100 degC (212 degF)",
        ),
    ),
    agrees=(
        Agreement(
            "cycle.remove insulation below", "cycle.end of control", "no hotter than control ends"
        ),
    ),
)  # fmt: skip


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    strip, end = entry.strip_below, entry.end_control
    if strip is None or end is None or strip <= end:
        return
    case.add(
        RULE.found(
            f"the insulation of {treatment.joint.name} may come off below {strip.both()}, and control ends at "
            f"{end.both()}",
            entry.place("strip_below"),
            address=treatment.address,
            others=[Label(entry.place("end_control"), "control")],
            basis=RULE.basis,
        )
    )
