"""A band is not many times as wide as the one it surrounds."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.helpers.widths import stated_width, too_narrow
from hts.checking.rules.rule import Agreement, Bad, Edge, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.types import WidthValue

#: Times the width of the band inside. The formulas of the books add as much outside the heaters as
#: they put beneath them at most: about twice. Common practice, no source.
_TIMES = 4
#: The same where the width is said of each side: the figure is probably the total.
_SIDED = Fraction(5, 2)

RULE = Rule(
    "B122",
    "band-far-too-wide",
    "warning",
    summary="A gradient band more than four times as wide as the heated band, or insulation more than "
    "four times as wide as the gradient band; two and a half times where it is said of each side.",
    why="It is the sign of a wrong unit or a slipped digit: nobody finds that much insulation, or room "
    "for it, and what is laid instead is guessed at the pipe.",
    fix="Compare number and unit with the drawing.",
    source="common practice, no source (both factors)",
    basis="practice",
    bad=(
        Bad(
            (("thickness 50 mm layers 2", "thickness 50 mm layers 2 width 850 cm total"),),
            at="850 cm total",
            says="is 850 cm (334.6 in) … 810.2 mm (31.9 in)",
        ),
    ),
    edges=(
        Edge(
            (
                ("heated band    by rule", "heated band    580 mm total"),
                ("lead at least       1 m", "lead at least       1.2 m"),
                ("gradient band  by rule", "gradient band  {} each side"),
            ),
            keeps="725 mm",
            breaks="726 mm",
            says="is 1452 mm (57.17 in) … 580 mm (22.83 in)",
        ),
        Edge(
            (
                ("heated band    by rule", "heated band    580 mm total"),
                ("lead at least       1 m", "lead at least       1.2 m"),
                ("gradient band  by rule", "gradient band  {} total"),
            ),
            keeps="2320 mm",
            breaks="2321 mm",
            says="is 2321 mm (91.38 in) … 580 mm (22.83 in)",
        ),
    ),
    agrees=(
        Agreement(
            "joint.heating.gradient band",
            "joint.heating.heated band",
            "no more than four times as wide",
        ),
        Agreement(
            "joint.heating.insulation.width",
            "joint.heating.gradient band",
            "no more than four times as wide",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.method == "furnace" or not (treated(joint) or joint.bakes):
        return
    limits = limits_of(case, joint)
    heated = limits.band("heated band")
    soak = limits.band("soak band")
    if too_narrow(case, joint, "heated") or (heated and soak and heated < soak):
        # The heated band is the one to mend.
        return
    gradient = stated_width(case, joint, "gradient")
    beside = limits.band("gradient band")
    insulation = heating.insulation
    covered = total_width(insulation.width, limits.thickness) if insulation is not None else None
    for name, wide, inner, narrow, entry, field in (
        ("gradient band", gradient, "heated band", heated, heating, "gradient_band"),
        ("insulation", covered, "gradient band", beside, insulation, "width"),
    ):
        if wide is None or narrow is None or entry is None:
            continue
        stated = getattr(entry, field)
        sided = isinstance(stated, WidthValue) and stated.each_side
        if wide.value <= narrow.value * (_SIDED if sided else _TIMES):
            continue
        case.add(
            RULE.found(
                f"the {name} of {joint.name} is {wide.both()} wide in total, the {inner} "
                f"{narrow.both()}",
                entry.place(field),
                address=f"{joint.address}/heating",
                others=[Label(heating.place(inner.replace(" ", "_")), f"the {inner}")],
                basis=RULE.basis,
            )
        )
