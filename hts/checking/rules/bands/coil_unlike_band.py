"""An induction coil covers the heated band, and goes round where its zone does."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round, limits_of
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.heating import Heating

#: Of the heated band; heat spreads a little beyond the outer turns.
_SHARE = Fraction(3, 4)
#: A band twice as wide is another one.
_TWICE = 2


def _coil(coil: str) -> tuple[tuple[str, str], ...]:
    return (
        ("heating by resistance", "heating by induction"),
        (
            "    zone top       from 9:00 to 3:00 power 9 kW heaters 2\n",
            f"    zone all all round power 30 kW\n    coil {coil}\n",
        ),
        (
            "    zone bottom    from 3:00 to 9:00 power 9 kW heaters 2\n    gap at         12:00\n",
            "",
        ),
        ("controls top            at 12:00", "controls all            at 12:00"),
        (
            "controls bottom         at 6:00  on weld              channel 2   control channel 2",
            "monitors weld           at 6:00  on weld              channel 2",
        ),
        ("    T2S  spare for T2            at 6:10  on weld              channel 8\n", ""),
        ("length 20 m", "length 20 m shielded"),
        ("each leg apart\n", "each leg apart\n    leads square to the coil\n"),
        ("kind      transformer", "kind      induction supply"),
    )


RULE = Rule(
    "B125",
    "coil-unlike-band",
    "warning",
    summary="An induction coil whose turns cover much less than the heated band, or twice of it and more, or one laid flat for a "
    "zone that goes all round.",
    why="What no turn covers stays cold, whatever the controller shows.",
    fix="Count the turns and their pitch, or correct the band or the zone.",
    source="arithmetic; three quarters of the band: common practice, no source",
    basis="practice",
    edges=(
        Edge(
            _coil("turns {} wound around cooled by air pitch 44 mm"),
            keeps="10",
            breaks="9",
            says="9 turns … 396 mm (15.59 in) … 574.7 mm (22.63 in)",
        ),
    ),
    bad=(
        Bad(
            _coil("turns 13 wound around cooled by air pitch 140 mm"),
            at="13",
            says="13 turns … 1820 mm (71.65 in) … 574.7 mm (22.63 in)",
        ),
        Bad(
            _coil("turns 13 wound flat cooled by air pitch 44 mm"),
            at="flat",
            says="laid flat, and zone all goes all round",
        ),
    ),
    good=(Good(_coil("turns 13 wound around cooled by air pitch 44 mm")),),
    agrees=(
        Agreement("joint.heating.coil.turns", "joint.heating.heated band", "cover it"),
        Agreement("joint.heating.coil.wound", "joint.heating.zone", "round where the zone is"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    coil = heating.coil if heating is not None else None
    if heating is None or coil is None or not goes_round(joint):
        return
    whole = next((zone for zone in joint.zones if zone.entry.all_round), None)
    if coil.wound == "flat" and whole is not None:
        message = f"the coil is laid flat, and zone {whole.name} goes all round"
        _tell(case, joint, message, coil.place("wound"), Label(whole.entry.place(), "the zone"))
        return
    width = limits_of(case, joint).band("heated band")
    if coil.turns is None or coil.pitch is None or coil.wound == "flat" or width is None:
        return
    covered = coil.turns * coil.pitch.value
    if _SHARE * width.value <= covered <= _TWICE * width.value:
        return
    shown = Quantity.of(covered, "mm", LENGTH).in_unit(coil.pitch.unit.symbol)
    message = f"{coil.turns} turns of {joint.name} cover {shown.both()}, and the heated band is {width.both()}"
    _tell(case, joint, message, coil.place("turns"), _band(heating))


def _band(heating: Heating) -> Label:
    return Label(heating.place("heated_band"), "the heated band")


def _tell(case: Case, joint: Joint, message: str, at: Span, other: Label) -> None:
    case.add(
        RULE.found(
            message, at, address=f"{joint.address}/heating", others=[other], basis=RULE.basis
        )
    )
