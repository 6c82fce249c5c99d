"""What the weld cools in once control has ended is said."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool

RULE = Rule(
    "Y136",
    "cooling-not-said",
    "advice",
    summary="A heat treatment that ends hot and does not say what the weld cools in from there.",
    why="The night shift strips the blankets as soon as the recorder stops, and a thick or hardening "
    "wall is quenched by rain and wind from three hundred degrees.",
    fix="Write `cool in insulation` or `cool in still air`.",
    source="common practice, no source",
    basis="practice",
    about=(
        "cycle.cool.in",
        "bake.cool.in",
    ),
    bad=(Bad((("  cool  in still air\n", ""),), at="315 degC", says="from 315 degC (599 degF)"),),
    good=(
        Good((("  cool  in still air\n", "  cool  in insulation\n"),)),
        Good(
            (
                (
                    "  cool  in still air\n",
                    "  finally power off\n  remove insulation below 80 degC\n",
                ),
            )
        ),
    ),
    edges=(
        Edge(
            (("  cool  in still air\n", ""), ("cool  to 315 degC", "cool  to {}")),
            keeps="100 degC",
            breaks="101 degC",
            says="from 101 degC (214 degF)",
        ),
    ),
    agrees=(Agreement("cycle.cool.in", "cycle.cool.to", "stated where it ends hot"),),
)
#: degC below which what is touched may still burn, but no metal is harmed. Common practice.
_HARMLESS = 100


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    segments = entry.segments
    if not segments or not heats(treatment) or getattr(entry, "strip_below", None) is not None:
        return
    last = segments[-1]
    if not isinstance(last, Cool) or last.medium is not None or last.says("medium"):
        return
    if last.to is None or last.to.to("degC") <= _HARMLESS:
        return
    case.add(
        RULE.found(
            f"nothing says what {treatment.joint.name} cools in from {last.to.both()}",
            last.place("to"),
            address=treatment.address,
            basis=RULE.basis,
        )
    )
