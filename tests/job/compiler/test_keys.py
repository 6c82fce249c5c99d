"""What can be keyed into a controller, and how far a step without a rate goes: arithmetic."""

from __future__ import annotations

from fractions import Fraction as F
from types import SimpleNamespace as Stub
from typing import Any

from hts.base.quantities import DIFFERENCE, TEMPERATURE, Interval, Quantity
from hts.job.compiler.free import _ends
from hts.job.compiler.keyed import Keys, error_step, keys
from tests.rows import each_row

UNITS: Any = Stub(first=lambda dimension: "degC")


def degrees(value: float | F, unit: str = "degC") -> Quantity:
    return Quantity.of(F(value), unit, TEMPERATURE)


@each_row(
    ("unit", "resolution", "keyed", "step"),
    [
        (None, None, "degC", 1),
        ("degF", None, "degF", 1),
        (None, "0.1 K", "degC", F(1, 10)),
        (None, "0.5 K", "degC", F(1, 2)),
        (None, "5 K", "degC", 5),
        ("degF", "1 K", "degF", F(9, 5)),
        # Less than a tenth is not shown, and a step of the other unit may be no number of this one.
        (None, "0.25 K", "degC", 1),
        (None, "1 degF", "degC", 1),
    ],
)
def test_steps_of_a_controller(
    unit: str | None, resolution: str | None, keyed: str, step: int | F
) -> None:
    shown = Quantity.read(resolution, DIFFERENCE) if resolution else None
    found = keys(Stub(unit=unit, resolution=shown), UNITS)  # type: ignore[arg-type]
    assert found == (keyed, step)
    assert error_step(found).to({"degC": "K", "degF": "degF"}[keyed]) == step
    assert keys(None, UNITS) == ("degC", 1)


@each_row(
    ("value", "toward", "keyed"),
    [
        (700, "up", 700), (700, "down", 700), (F(7001, 10), "up", F(1401, 2)),
        (F(7001, 10), "down", 700), (F(7001, 10), "nearest", 700),
        # Half a step goes up.
        (F(28001, 40), "nearest", 700), (F(28010, 40), "nearest", F(1401, 2)),
        (F(28009, 40), "nearest", 700),
    ],
)  # fmt: skip
def test_a_value_as_it_is_keyed(value: int | F, toward: str, keyed: int | F) -> None:
    found = Keys("degC", F(1, 2)).put(degrees(value), toward)
    assert found.to("degC") == keyed


@each_row(
    ("low", "high", "value", "keyed"),
    [
        (690, 720, F(7054, 10), 705),
        # The nearest lies outside: the next one inside, and the value itself where none is.
        (F(6906, 10), F(6914, 10), F(6906, 10), 691),
        (F(6906, 10), F(6926, 10), F(6926, 10), 692),
        (F(6906, 10), F(6909, 10), F(6907, 10), F(6907, 10)),
    ],
)
def test_a_hold_is_keyed_inside_its_range(
    low: int | F, high: int | F, value: F, keyed: int | F
) -> None:
    found = Keys("degC", F(1)).inside(degrees(value), Interval(degrees(low), degrees(high)))
    assert found.to("degC") == keyed


@each_row(
    ("end", "strip", "goes_to"),
    [(300, 40, 300.0), (None, None, 80.0), (None, 90, 90.0), (None, 30, 30.0), (None, 20, 30.0)],
)
def test_how_far_a_free_step_goes(end: int | None, strip: int | None, goes_to: float) -> None:
    """To its end, else to where the insulation comes off, 80 degC where nobody says, and never
    nearer to the surroundings than 10 K, where it would cool for ever."""
    step: Any = Stub(start=degrees(315), end=None if end is None else degrees(end))
    entry = Stub(strip_below=None if strip is None else degrees(strip))
    run: Any = Stub(program=Stub(entry=entry))
    assert _ends(step, run) == (315.0, goes_to)
