"""The heaters reach beyond the soak band, the insulation beyond the heaters."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.helpers.widths import stated_width, too_narrow
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "B104",
    "bands-out-of-order",
    "error",
    floor="error",
    summary="A heated band narrower than the soak band, or a gradient band narrower than the "
    "heated band.",
    why="Metal with no heater over it cannot be held at temperature, and heaters that are not "
    "covered cannot hold it.",
    fix="Widen the outer band.",
    source="arithmetic: each band lies within the next",
    basis="derived",
    bad=(
        Bad(
            (
                (
                    "governed by  asme-b31.3 edition 2018, local-heating",
                    "governed by  asme-b31.3 edition 2018",
                ),
                ("soak band      by rule", "soak band      80 mm total"),
                ("heated band    by rule", "heated band    70 mm total"),
                ("gradient band  by rule", "gradient band  810 mm total"),
                ("at 12:00, 287 mm", "at 12:00, 35 mm"),
                ("at 6:00,  287 mm", "at 6:00,  35 mm"),
                ("    zone top ", "    zones          2\n    zone top "),
            ),
            at="70 mm total",
            says="is 70 mm (2.76 in) … 80 mm (3.15 in)",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.method == "furnace":
        return
    for inner, outer in (("soak", "heated"), ("heated", "gradient")):
        wide = stated_width(case, joint, outer)
        narrow = limits_of(case, joint).band(f"{inner} band")
        if wide is None or narrow is None or wide >= narrow or too_narrow(case, joint, outer):
            continue
        case.add(
            RULE.found(
                f"the {outer} band is {wide.both()} wide in total, the {inner} band "
                f"{narrow.both('up')}",
                heating.place(f"{outer}_band"),
                address=f"{joint.address}/heating",
                others=[Label(heating.place(f"{inner}_band"), f"the {inner} band")],
            )
        )
