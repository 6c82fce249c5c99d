"""Circuits that joints hang on and what one of them carries, each counted by hand."""

from __future__ import annotations

from fractions import Fraction
from types import SimpleNamespace as Stub
from typing import Any

from hts.checking.rules.examples import BASES
from hts.language.model.joint import Joint
from hts.language.vocabulary.equipment import PowerSource
from hts.plan.circuits import _loads, circuits, unfit
from tests.rows import each_row
from tests.texts import spec_of

#: Ratings of the supply -> watts a circuit carries: the least of its own and what cables carry.
CARRIES = {
    "": None,
    "circuit power 10 kW": 10_000,
    "voltage 65 V": None,
    "cable rating 200 A": None,
    "voltage 65 V; cable rating 200 A": 13_000,
    "circuit power 10 kW; voltage 65 V; cable rating 200 A": 10_000,
    "circuit power 20 kW; voltage 65 V; cable rating 200 A": 13_000,
    "circuit power 10 kW; cable rating 200 A": 10_000,
}


def made(
    ratings: str, zones: tuple[str, str], kind: str = "transformer"
) -> tuple[Joint, PowerSource]:
    text = BASES["butt"].replace(
        "  circuits  6\n", f"  circuits  6\n  {ratings.replace('; ', chr(10))}\n"
    )
    text = text.replace("kind      transformer", f"kind      {kind}")
    for zone, more in zip(("9:00 to 3:00", "3:00 to 9:00"), zones, strict=True):
        assert f"{zone} power 9 kW heaters 2" in text
        text = text.replace(f"{zone} power 9 kW heaters 2", f"{zone} {more}")
    spec = spec_of(text)
    (supply,) = spec.file.power_sources
    return spec.joints["W12"], supply


@each_row("ratings", CARRIES)
def test_what_a_circuit_carries(ratings: str) -> None:
    carries = CARRIES[ratings]
    for watts in (9_999, 10_000, 10_001, 13_000, 13_001, 26_001):
        joint, supply = made(ratings, (f"power {watts} W", f"power {watts} W"))
        # As many circuits for each zone as carry its power, one at least.
        each = 1 if carries is None else -(-watts // carries)
        assert circuits([joint], supply) == 2 * each
        assert circuits([joint], None) == 2
        assert circuits([joint, joint], supply) == 4 * each
        joint, supply = made(ratings, (f"power {watts} W circuit 1", f"power {watts} W circuit 2"))
        assert circuits([joint], supply) == 2
        assert bool(unfit([joint], supply)) == (carries is not None and watts > carries)
        assert unfit([joint], None) == ""


def test_zones_on_one_circuit_add_up() -> None:
    joint, supply = made("circuit power 10 kW", ("power 5 kW circuit 1", "power 5.01 kW circuit 1"))
    assert circuits([joint], supply) == 1
    told = "needs 10.1 kW of circuit 1, and a circuit of PS1 carries 10.0 kW"
    assert unfit([joint], supply) == told
    assert unfit([joint, joint], supply) == f"W12 {told}"
    joint, supply = made("circuit power 10 kW", ("power 5 kW circuit 1", "power 5 kW circuit 1"))
    assert unfit([joint], supply) == ""
    # One that names none has its own.
    joint, supply = made("circuit power 10 kW", ("power 5 kW circuit 1", "power 5 kW"))
    assert circuits([joint], supply) == 2


def test_a_supply_for_another_method() -> None:
    joint, supply = made("", ("power 5 kW", "power 5 kW"), "induction supply")
    assert unfit([joint], supply) == (
        "is heated by resistance, which takes a transformer or generator, and PS1 is an induction "
        "supply"
    )


def test_rows_of_heaters_take_the_place_of_the_zone_they_lie_in() -> None:
    """Three of 2 kW and one of 1 kW on circuit 1; a row without a zone or a circuit takes no place,
    and the zone that has no row counts by itself."""
    watts = lambda power: Stub(value=Fraction(power))  # noqa: E731

    def row(zone: str | None, circuit: str | None, power: int | None, count: int | None) -> Any:
        its = Stub(name=zone) if zone else None
        return Stub(zone=its, circuit=circuit, count=count, power=watts(power) if power else None)

    rows = [row("top", "1", 2000, 3), row(None, "1", 1000, None), row("left", None, 9000, 1),
            row("top", "2", None, 4)]  # fmt: skip
    zones = [
        Stub(name=name, entry=Stub(circuit="2", power=watts(5000))) for name in ("top", "left")
    ]
    joint: Any = Stub(entry=Stub(heating=Stub(heaters=rows)), zones=zones)
    assert _loads(joint) == {"1": 7000, "2": 5000}
    joint.entry.heating = None
    assert _loads(joint) == {"2": 10000}
