"""Preheat is not hotter than is usual for the metal."""

from __future__ import annotations

from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.metals import p_numbers
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_AT_LEAST = "  at least          150 degC\n"
_LEAST_F = "  at least          200 degF\n"

RULE = Rule(
    "P123",
    "preheat-unusual-for-metal",
    "warning",
    summary="A preheat, or a temperature kept during interruptions, hotter than is usual for the "
    "P-number.",
    why="With degC written for degF it is the preheat of another steel: the base metal loses "
    "toughness, and nobody can weld beside it.",
    fix="Check figure and unit. Where it is meant, waive the finding with the reason.",
    source="common practice, no source: well above the preheats of ASME B31.3-2018 table 330.1.1",
    basis="practice",
    edges=(
        Edge(
            ((_LEAST_F, "  at least          {}\n"),),
            keeps="190 degC",
            breaks="191 degC",
            base="preheat",
            says="to 191 degC (376 degF) … more than 190 degC (374 degF)",
        ),
        Edge(
            ((_LEAST_F, "  at least          {}\n"),),
            keeps="374 degF",
            breaks="375 degF",
            base="preheat",
            says="to 375 degF (191 degC) … more than 190 degC (374 degF)",
        ),
        Edge(
            (
                (
                    "  at least          200 degF\n",
                    "  at least          200 degF\n  maintain at least {}\n",
                ),
            ),
            keeps="190 degC",
            breaks="191 degC",
            base="preheat",
            says="191 degC (376 degF) … more than 190 degC (374 degF)",
        ),
    ),
    good=(
        Good(((_LEAST_F, "  at least          374 degF\n"),), base="preheat"),
        Good(((_AT_LEAST, "  at least          200 degC\n"),)),
    ),
    agrees=(
        Agreement("preheat.at least", "material.p-number", "usual for the metal"),
        Agreement("preheat.maintain at least", "material.p-number", "usual for the metal"),
    ),
)

#: degC by P-number: the hottest preheat that is usual, a margin added.
_HOTTEST = {
    "1": 190,
    "3": 230,
    "4": 300,
    "5A": 330,
    "5B": 350,
    "5C": 350,
    "6": 350,
    "7": 250,
    "8": 120,
    "10H": 180,
    "15E": 350,
    "41": 120,
    "42": 120,
    "43": 120,
    "44": 120,
    "45": 120,
}


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None:
        return
    metals = p_numbers(joint)
    if not metals or not all(metal in _HOTTEST for metal in metals):
        return
    # Of two metals the one that stands more decides: it needs the hotter preheat.
    metal = max(metals, key=lambda each: _HOTTEST[each])
    usual = Quantity.of(_HOTTEST[metal], "degC", TEMPERATURE)
    for field, what in (("at_least", "preheated to"), ("maintain", "kept at")):
        stated = getattr(preheat, field)
        if isinstance(stated, Quantity) and stated > usual:
            case.add(
                RULE.found(
                    f"{joint.name} is {what} {stated.both()}; for P-{metal} hardly more than "
                    f"{usual.both()} is usual",
                    preheat.place(field),
                    address=f"{joint.address}/preheat",
                    basis=RULE.basis,
                )
            )
            return
