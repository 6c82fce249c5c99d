"""What lies in the gradient band is not to stay at the temperature of the hand."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round, half, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

#: Colder than this the pipe is nowhere within its gradient band, at whose edge it has about half
#: the temperature of the hold.
_WARM = Quantity.of(100, "degC", TEMPERATURE)
_ROD = '  support    "rod hanger" 1.2 m upstream fixed\n'
_T6 = "    T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
_SEAT = f'{_ROD}  nearby     "valve seat" {{}} downstream at most {{}}{{}} monitored by T9\n'
_WATCHED = f"{_T6}    T9   monitors nearby item    at 12:00, {{}} downstream    channel 9\n"

RULE = Rule(
    "N124",
    "neighbour-kept-too-cold",
    "warning",
    summary="Something nearby, inside the gradient band and not protected, that may not reach 100 degC.",
    why="At the edge of the gradient band the pipe still has about half the temperature of the hold: "
    "the limit cannot be kept, or it is a slip.",
    fix="Correct the limit or the distance, protect it, or take it away before heating.",
    source="AWS D10.10:2021 on the gradient band, half the temperature at its edge; 100 degC is common "
    "practice",
    basis="practice",
    edges=(
        Edge(
            (
                (_ROD, _SEAT.format("400 mm", "{}", "")),
                (_T6, _WATCHED.format("400 mm")),
            ),
            keeps="100 degC",
            breaks="99 degC",
            says="at most 99 degC (210 degF) … 400 mm",
        ),
    ),
    good=(
        Good(((_ROD, _SEAT.format("1.5 m", "60 degC", "")), (_T6, _WATCHED.format("1.5 m")))),
        Good(
            (
                (_ROD, _SEAT.format("400 mm", "60 degC", " protected")),
                (_T6, _WATCHED.format("400 mm")),
            )
        ),
    ),
    agrees=(
        Agreement("joint.nearby.at most", "joint.heating.gradient band", "warm inside the band"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.entry.nearby or not goes_round(joint) or not treated(joint):
        return
    heating, band = joint.entry.heating, limits_of(case, joint).band("gradient band")
    if heating is None or band is None:
        return
    for item in joint.entry.nearby:
        if item.at_most is None or item.removed or item.protected or item.at_most >= _WARM:
            continue
        if item.where.distance < half(band):
            case.add(
                RULE.found(
                    f"{item.what} may reach at most {item.at_most.both()}, "
                    f"{item.where.distance} from the weld of {joint.name}: inside its gradient band",
                    item.place("at_most"),
                    address=joint.address,
                    others=[Label(heating.place("gradient_band"), "the gradient band")],
                    basis=RULE.basis,
                )
            )
