"""Preheat, alarms, widths and free steps: each figure worked by hand from the text."""

from __future__ import annotations

from fractions import Fraction as F
from math import pi

import pytest
from scipy.integrate import quad

from hts.base.quantities import LENGTH, TEMPERATURE, Interval, Quantity
from hts.checking.rules.examples import BASES
from hts.job.compiler import CannotCompile, Job
from hts.job.compiler.free import FreeTime, free_times
from hts.job.compiler.keyed import Keys
from hts.job.compiler.program import Program
from hts.job.compiler.steps import COOL, HEAT
from hts.science.heat.losses import insulated_pipe
from hts.science.heat.properties import CARBON_STEEL, blanket_conductivity
from tests.paper.packet.jobs import of_text
from tests.rows import each_row

TEXT = BASES["bake"]
LEAST = "  at least          150 degC\n"
MEASURED = "  measured by  "


def compiled(*changes: tuple[str, str]) -> Job:
    text = TEXT
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return of_text(text)


def program(kind: str, *changes: tuple[str, str]) -> Program:
    (sheet,) = compiled(*changes).joints
    return next(run.program for run in sheet.runs if run.program.kind == kind)


BY_CONTROLLER = (MEASURED, f"  controlled by     C1\n{MEASURED}")
BY_RECORDER = (MEASURED, f"  recorded by       R1\n{MEASURED}")
NO_ERROR = ("  error              +/- 1.0 degC\n", "")
NO_SWING = ("  control tolerance  +/- 5 K\n", "")
NO_READING = "2 K (assumed: error of the reading)"
ANY_SWING = "5 K (assumed: swing about the setpoint)"
C1 = "1.0 degC (controller C1)"


@each_row(
    ("changes", "at", "added", "basis"),
    [
        # Wire of class 1 at 150 degC: 1.5 K (IEC 60584-1). Nothing read by: 2 K, a swing of 5 K.
        ((), 159, f"{NO_READING} + {ANY_SWING}", "practice"),
        # The recorder is off by 1.5 K.
        ((BY_RECORDER,), 158, f"1.5 degC (recorder R1) + {ANY_SWING}", "practice"),
        # The controller by 1 K, and it keeps 5 K.
        ((BY_CONTROLLER,), 158, f"{C1} + 5 K (swing of C1)", "derived"),
        ((BY_CONTROLLER, BY_RECORDER), 158, f"{C1} + 5 K (swing of C1)", "derived"),
        ((BY_CONTROLLER, NO_ERROR), 159, f"{NO_READING} + 5 K (swing of C1)", "practice"),
        ((BY_CONTROLLER, NO_SWING), 158, f"{C1} + {ANY_SWING}", "practice"),
    ],
)
def test_a_preheat_lies_above_its_least_by_the_errors(
    changes: tuple[tuple[str, str], ...], at: int, added: str, basis: str
) -> None:
    made = program("preheat", *changes)
    assert made.target is not None and made.target.to("degC") == at
    hold = made.steps[-1]
    assert hold.end is not None and hold.end.to("degC") == at
    why = hold.target_why
    assert why is not None and why.basis == basis
    assert why.numbers == f"150 degC + 1.5 K (wire) + {added}"


@pytest.mark.parametrize(
    ("most", "at"),
    [
        # 158.5 degC is keyed as 159: at most 159 degC it is that, at most 158 the middle.
        (159, 159),
        (158, 154),
        (153, 151),  # 151.5 is nearest to 152; 152 lies in the range, too
    ],
)
def test_the_middle_of_a_range_too_narrow_for_the_errors(most: int, at: int) -> None:
    interpass = ("  interpass         at most 315 degC", f"  interpass         at most {most} degC")
    made = program("preheat", interpass)
    assert made.target is not None
    assert abs(made.target.to("degC") - at) <= (1 if most == 153 else 0)
    assert 150 <= made.target.to("degC") <= most


def test_a_preheat_that_cannot_be() -> None:
    with pytest.raises(CannotCompile, match="150 degC is above the interpass 140 degC"):
        compiled(("  interpass         at most 315 degC", "  interpass         at most 140 degC"))


def test_a_preheat_of_one_temperature() -> None:
    most = ("  interpass         at most 315 degC", "  interpass         at most 150 degC")
    window = program("preheat", most).steps[-1].window
    assert window is not None and window.low is not None and window.high is not None
    assert (window.low.to("degC"), window.high.to("degC")) == (150, 150)


def test_the_steps_of_a_preheat() -> None:
    made = program("preheat")
    # From the ambient of 20 degC; kept until welding ends.
    assert [(s.action, s.start.to("degC"), s.end and s.end.to("degC")) for s in made.steps] == [
        ("heat", 20, 159), ("hold", 159, 159)
    ]  # fmt: skip
    assert made.steps[1].note == "until end of welding" and made.by_hand
    soaked = program("preheat", (MEASURED, f"  soak 30 min\n{MEASURED}"))
    assert [(s.action, s.note) for s in soaked.steps][1:] == [
        ("hold", "before the arc is struck"), ("hold", "until end of welding")
    ]  # fmt: skip
    least = soaked.steps[1].least
    assert least is not None and least.to("min") == 30
    window = made.steps[1].window
    assert window is not None and (str(window.low), str(window.high)) == ("150 degC", "315 degC")
    held = program("preheat", BY_CONTROLLER)
    assert not held.by_hand and held.steps[1].alarm_high is not None
    gas = program("preheat", BY_CONTROLLER, ("  method            resistance",
                                             "  method            gas"))  # fmt: skip
    assert gas.by_hand and gas.steps[1].alarm_high is None


HOLD = "  hold  700 .. 730 degC for 2 h\n"


@each_row(
    ("low", "high", "wire", "alarms"),
    [
        # Target 715 degC; wire class 1: 0.4 % of 730 and 700 degC, 2.92 and 2.80 K; controller 1 K.
        # 726.08 and 703.80, keyed inward.
        (700, 730, "", (726, 704)),
        # The lot is off by 2 K at any temperature: 727 and 703.
        (700, 730, "    error +/- 2 K\n", (727, 703)),
        # 3 K of error leave half of 4 K to the setpoint of 715: 717 and 713.
        (711, 719, "    error +/- 2 K\n", (717, 713)),
        # Just half: 3 K of 6 K.
        (709, 721, "    error +/- 2 K\n", (718, 712)),
        (708, 722, "    error +/- 2 K\n", (719, 711)),
    ],
)
def test_alarms_lie_inside_the_hold_range(
    low: int, high: int, wire: str, alarms: tuple[int, int]
) -> None:
    changes = [(HOLD, HOLD.replace("700 .. 730", f"{low} .. {high}"))]
    if wire:
        changes.append(("    lead at least       1 m\n", f"    lead at least       1 m\n{wire}"))
    made = program("cycle", *changes)
    hold = next(step for step in made.steps if step.action == "hold")
    assert hold.alarm_high is not None and hold.alarm_low is not None
    assert (hold.alarm_high.to("degC"), hold.alarm_low.to("degC")) == alarms
    for why in (hold.alarm_high_why, hold.alarm_low_why):
        assert why is not None and ("half way" in (why.formula or "")) == (high - low == 8)
    # Before and after it the upper end is watched, the lower one not.
    for step in made.steps:
        assert step.alarm_high is not None and step.alarm_high.to("degC") == alarms[0]
        assert (step.alarm_low is None) == (step is not hold)


def test_alarms_that_are_stated() -> None:
    made = program("cycle", (HOLD, f"{HOLD}  alarm above 735 degC\n  alarm below 690 degC\n"))
    for step in made.steps:
        assert step.alarm_high is not None and step.alarm_high.to("degC") == 735
        low = None if step.alarm_low is None else step.alarm_low.to("degC")
        assert low == (690 if step.action == "hold" else None)


# Free steps -----------------------------------------------------------------------------------

#: Outside, wall, heated band by rule and blanket of the example, m.
D, T, BLANKET = 0.3238, 0.0254, 0.05


def free(*changes: tuple[str, str]) -> list[tuple[str, FreeTime]]:
    (sheet,) = compiled(*changes).joints
    run = next(run for run in sheet.runs if run.program.kind == "cycle")
    found = free_times(sheet, run)
    return [(s.action, found[s.number]) for s in run.program.steps if s.number in found]


def balance(start: float, end: float, watts: float | None) -> float:
    """Seconds from the heat stored and lost by the ring, integrated: heated at `watts`, cooling
    by itself where None. Fins of each side with 10 W/(m2 K) outside, none in the bore."""
    (sheet,) = compiled().joints
    width = float(next(b.total.to("mm") for b in sheet.bands if b.name == "heated band")) / 1000
    area = pi * T * (D - T)
    mass = area * width * 7850

    def pace(celsius: float) -> float:
        k = CARBON_STEEL.conductivity.at(celsius)
        fin = (2 * 10 * (D / 2) / (k * ((D / 2) ** 2 - (D / 2 - T) ** 2))) ** 0.5
        cover = insulated_pipe(D, celsius, thickness=BLANKET, conductivity=blanket_conductivity,
                               ambient=20)  # fmt: skip
        lost = cover.watts_per_metre * width + 2 * k * area * fin * (celsius - 20)
        gained = lost if watts is None else watts - lost
        return float(mass * CARBON_STEEL.specific_heat.at(celsius) / gained)

    low, high = sorted((start, end))
    return float(quad(pace, low, high, limit=200, epsrel=1e-3)[0])


#: Heats freely from 40 to 315 degC and cools freely from there to 60.
LONG = (
    ("  start of control    300 degC\n", "  start of control    40 degC\n"),
    ("  end of control      300 degC\n", "  end of control      60 degC\n"),
)


def test_free_steps_by_the_heat_of_the_ring() -> None:
    (heat, up), (cool, down) = free(*LONG)
    assert (heat, cool) == (HEAT, COOL)
    for found, seconds in ((up, balance(40, 315, 18_000)), (down, balance(60, 315, None))):
        assert found.slow is not None
        assert float(found.fast) == pytest.approx(0.75 * seconds, rel=0.02, abs=330)
        assert float(found.slow) == pytest.approx(1.5 * seconds, rel=0.02, abs=330)
        assert found.fast % 600 == found.slow % 600 == 0
    assert "with 18 kW" in up.why.numbers and "kW" not in down.why.numbers


def test_power_that_the_losses_take() -> None:
    weak = ("from 9:00 to 3:00 power 9 kW", "from 9:00 to 3:00 power 0.1 kW")
    other = ("from 3:00 to 9:00 power 9 kW", "from 3:00 to 9:00 power 0.1 kW")
    found = dict(free(weak, other))[HEAT]
    assert (found.fast, found.slow) == (0, None)
    assert found.why.numbers == "the losses take all the power"


def test_what_is_usual_where_no_blanket_is_stated() -> None:
    bare = ('    insulation     "ceramic fibre blanket" thickness 50 mm layers 2\n', "")
    (_, up), (_, down) = free(bare, *LONG)
    # 275 K at 300 and 100 K/h are 55 and 165 min; 255 K at 100 and 25 K/h 153 and 612 min: to ten
    # minutes, and never nothing: 15 K.
    assert (up.fast, up.slow) == (F(3600), F(9600))
    assert (down.fast, down.slow) == (F(9000), F(36_600))
    assert dict(free(bare))[HEAT].fast == 600
    assert (up.why.numbers, down.why.numbers) == ("100 to 300 K/h", "25 to 100 K/h")
    # To no stated end: down to 80 degC, 235 K, 141 and 564 min.
    endless = dict(free(bare, ("  end of control      300 degC\n", "")))["cool"]
    assert (endless.fast, endless.slow) == (F(8400), F(33_600))


def test_what_is_keyed() -> None:
    def degrees(number: str) -> Quantity:
        return Quantity.read(f"{number} degC", TEMPERATURE)

    fives = Keys("degC", F(5))
    for value, up, down, nearest in (
        ("100", 100, 100, 100), ("102", 105, 100, 100), ("102.5", 105, 100, 105),
        ("104.9", 105, 100, 105),
    ):  # fmt: skip
        found = [fives.put(degrees(value), toward).to("degC") for toward in ("up", "down")]
        assert [*found, fives.put(degrees(value)).to("degC")] == [up, down, nearest]
    inside = [
        fives.inside(degrees("103"), Interval(degrees(low), degrees(high))).to("degC")
        for low, high in (("100", "110"), ("100", "104"), ("102", "104"), ("103", "106"))
    ]
    assert inside == [105, 100, 103, 105]
    assert fives.inside(degrees("103"), None).to("degC") == 105
    assert Keys("degF", F(1)).put(degrees("100")).to("degF") == 212


def test_runs_come_in_the_order_they_are_done() -> None:
    kinds = [run.program.kind for run in compiled().joints[0].runs]
    assert kinds == ["preheat", "bake", "cycle"]
    begins = "  begins            from preheat\n"
    early = compiled((begins, "  begins            before excavation\n"))
    assert [run.program.kind for run in early.joints[0].runs] == ["bake", "preheat", "cycle"]
    late = compiled((begins, "  begins            after cooling\n"))
    assert [run.program.kind for run in late.joints[0].runs] == ["preheat", "bake", "cycle"]


def test_what_else_is_said_of_a_treatment() -> None:
    assert program("cycle").settings == (
        "powered by PS1", "hold counts while all in range",
        "interrupted hold adds up", "sensor break upscale",
        "on power loss resume at the present temperature",
        "on thermocouple loss change to the spare", "purpose stress relief",
    )  # fmt: skip
    assert program("bake").settings == (
        "powered by PS1", "hold counts while all in range", "begins from preheat", "lining none",
        "test after 48 h",
    )  # fmt: skip


def test_what_is_connected() -> None:
    t3 = "    T3   monitors soak edge      at 12:00, 40 mm downstream    channel 3"
    changed = compiled((t3, t3.replace("channel 3", "not connected")))
    tags = {tag.tag: tag for tag in changed.joints[0].tags}
    assert [name for name, tag in tags.items() if not tag.connected] == ["T3"]
    assert tags["T3"].recorder.number is None and tags["T1"].recorder.number == 1
    assert (tags["T2"].controller.number, tags["T4"].controller.number) == (2, None)
    # A quarter of pi * 323.8 mm at 3:00; nothing at 12:00, half at 6:00.
    half = tags["T2"].arc
    assert half is not None and float(half.to("mm")) == pytest.approx(pi * 323.8 / 2, abs=0.05)
    assert tags["T1"].arc is not None and tags["T1"].arc.value == 0


def test_widths() -> None:
    (sheet,) = compiled().joints
    found = {b.name: (b.total and float(b.total.to("mm")), float(b.each.to("mm")), b.datum)
             for b in sheet.bands}  # fmt: skip
    # Cap 30 mm + 2 * 25.4 mm; stated preheat 75 mm and bake 100 mm on each side.
    assert found["soak band"] == (pytest.approx(80.8), pytest.approx(40.4), "weld centreline")
    assert found["preheat width"] == (None, 75, "edge of the weld")
    assert found["bake width"] == (None, 100, "edge of the weld")
    total = compiled(("  width             100 mm each side", "  width             230 mm total"))
    bake = next(b for b in total.joints[0].bands if b.name == "bake width")
    assert bake.total == Quantity.read("230 mm", LENGTH)
    assert (bake.each, bake.datum) == (Quantity.read("115 mm", LENGTH), "weld centreline")
