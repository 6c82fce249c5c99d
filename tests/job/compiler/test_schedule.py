"""The schedule against values worked out by hand."""

from fractions import Fraction as F

import pytest

from hts.base.quantities import TIME, Quantity
from hts.checking.rules.examples import BUTT
from hts.job.compiler import CannotCompile, compile_spec
from hts.job.compiler.schedule import Point
from tests.texts import spec_of


def points(every: str, text: str = BUTT) -> list[Point]:
    spec = spec_of(text, "x.hts")
    job = compile_spec(spec, Quantity.read(every, TIME))
    return list(job.joints[0].runs[-1].points)


def test_every_half_hour() -> None:
    # 315 to 715 degC in 134 min: 400 / 134 K a minute. At 30 min 315 + 89.552 = 404.552 degC.
    found = [(p.elapsed / 60, p.setpoint.value, p.step.action) for p in points("30 min")]
    per_minute = F(400, 134)
    assert found[:7] == [
        (0, 315, "heat"),  # the free step, which takes no time on this clock
        (0, 315, "heat"),
        (30, 315 + 30 * per_minute, "heat"),
        (60, 315 + 60 * per_minute, "heat"),
        (90, 315 + 90 * per_minute, "heat"),
        (120, 315 + 120 * per_minute, "heat"),
        (134, 715, "heat"),
    ]
    # The hold ends at 254 min, the cooling at 388 min.
    assert [at for at, value, _ in found if value == 715] == [134, 150, 180, 210, 240, 254]
    assert found[-2:] == [(388, 315, "cool"), (388, 300, "cool")]


def test_setpoint_never_runs_ahead_of_the_programmed_rate() -> None:
    for first, second in zip(points("5 min"), points("5 min")[1:], strict=False):
        apart = second.elapsed - first.elapsed
        if apart and not second.step.is_free:
            step = abs(second.setpoint.value - first.setpoint.value)
            assert step / apart * 3600 <= 180


def test_a_schedule_nobody_reads_is_refused() -> None:
    with pytest.raises(CannotCompile, match="lines"):
        points("1 min", BUTT.replace("for 2 h", "for 400 h"))
