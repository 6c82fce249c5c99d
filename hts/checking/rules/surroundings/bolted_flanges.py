"""Flanges close by are unbolted while the line is hot."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.helpers.supports import hangs_in_a_line
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_FREE = "  expansion  free\n"

RULE = Rule(
    "N105",
    "bolted-flanges",
    "warning",
    summary="A weld heat treated in its line with the flanges of the line bolted, or in a furnace with "
    "its own.",
    why="The line cannot expand past a bolted flange: gaskets leak, and the hot weld gives way.",
    fix="Unbolt them, or show by a `calculation` for supports that they may stay.",
    source="common practice, no source; AWS D10.10:2021 on supports and expansion",
    basis="practice",
    about=("joint.flanges",),
    bad=(Bad(((_FREE, f"{_FREE}  flanges    bolted\n"),), at="bolted"),),
    good=(
        Good(((_FREE, f"{_FREE}  flanges    unbolted\n"),)),
        Good(((_FREE, f'{_FREE}  flanges    bolted\n  calculation "CN-14" for thermal stress\n'),)),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if entry.flanges != "bolted" or not treated(joint):
        return
    heating = entry.heating
    if heating is not None and heating.method == "furnace":
        message = f"the flanges of {joint.name} are bolted, and go into the furnace with it"
    elif hangs_in_a_line(joint):
        message = f"the flanges of the line stay bolted while {joint.name} is hot"
    else:
        return
    if all(
        calculation.of not in ("support", "thermal stress") for calculation in entry.calculations
    ):
        case.add(
            RULE.found(
                message,
                entry.place("flanges"),
                address=joint.address,
                basis=RULE.basis,
            )
        )
