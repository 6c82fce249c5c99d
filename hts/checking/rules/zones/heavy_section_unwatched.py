"""Beside a thin part, the heavy one is watched by itself."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.heavy import heavy_beside_thin
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

_THIN = ("  side branch of pipe NPS 10 wall 21 mm", "  side branch of pipe NPS 10 wall 12 mm")
_LAST = "at 6:00,  287 mm on run     channel 6"

RULE = Rule(
    "Z131",
    "heavy-section-unwatched",
    "advice",
    summary="A joint with one side at least twice as thick as the other, and no thermocouple that "
    "monitors the heavy section.",
    why="The heavy side lags; watched on the thin side alone it stays cold, and watched on the "
    "heavy side alone the thin side overheats.",
    fix="Add a thermocouple that `monitors heavy section`.",
    source="common practice, no source (twice the thickness)",
    basis="practice",
    edges=(
        Edge(
            (("  side branch of pipe NPS 10 wall 21 mm", "  side branch of pipe NPS 10 wall {}"),),
            keeps="12.8 mm",
            breaks="12.7 mm",
            at="25.4 mm",
            base="branch",
            says="has 25.4 mm (1 in) … 12.7 mm (0.5 in)",
        ),
    ),
    good=(
        Good((), base="branch"),
        Good(
            (
                _THIN,
                (
                    _LAST,
                    f"{_LAST}\n    T7   monitors heavy section  at 9:00, 60 mm on run  channel 9",
                ),
            ),
            base="branch",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.method == "furnace" or not treated(joint):
        return
    if any(tc.entry.monitors == "heavy section" for tc in joint.thermocouples):
        return
    found = heavy_beside_thin(case, joint)
    if found is not None:
        case.add(
            RULE.found(
                f"nothing monitors the heavy section of {joint.name}: the {found.what} has "
                f"{found.thick.both()}, the thinnest {found.thin.both()}",
                found.at or joint.place("names"),
                address=f"{joint.address}/thermocouples",
                others=[Label(heating.place(), "heated locally")],
                basis=RULE.basis,
            )
        )
