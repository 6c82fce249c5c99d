"""What stands in brackets is never looser than what the code prints in that system."""

from fractions import Fraction
from pathlib import Path

from hts.base.quantities import RATE, Quantity
from hts.checking.rules.examples import BUTT
from hts.job.compiler import compile_spec
from hts.job.compiler.units import Units
from hts.job.outputs.setpoint_sheet import amount
from hts.job.outputs.show import DOWN, UP, Shown, spoken
from hts.limits import book, demands
from tests.limits.conftest import in_system, read
from tests.rows import each_row
from tests.texts import spec_of

BOTH = Shown(Units(("SI", "US")))
HOLD = "700 .. 730 degC for 2 h"


def program(text, kind):
    job = compile_spec(spec_of(text))
    (run,) = [run for run in job.joints[0].runs if run.program.kind == kind]
    return run.program


@each_row(
    ("hold", "printed"),
    [
        # ASME B31.3-2018 Table 331.1.1, P-5A: 675 to 760 degC, 1250 to 1400 degF. 675 degC is
        # 1247 degF: whoever reads degF keeps to 1250. 720 degC is 1328 degF.
        ("675 .. 720 degC", "675 to 720 (1250 to 1328)"),
        # 676 degC is 1248.8 degF, still below what is printed; 677 degC is 1250.6 degF, beyond it.
        ("676 .. 720 degC", "676 to 720 (1250 to 1328)"),
        ("677 .. 720 degC", "677 to 720 (1251 to 1328)"),
        # What is below the code is told by a rule; nothing is added to it.
        ("674 .. 720 degC", "674 to 720 (1246 to 1328)"),
    ],
)
def test_a_hold(hold, printed):
    steps = program(BUTT.replace(HOLD, f"{hold} for 2 h"), "cycle").steps
    (window,) = [step.window for step in steps if step.action == "hold"]
    assert BOTH.bare_window(window) == printed


LINES = (Path(__file__).parents[2] / "limits" / "values.txt").read_text(encoding="utf-8")


def cases():
    seen = set()
    for line in LINES.splitlines():
        head, stated, *_ = (column.strip() for column in line.split("|"))
        id, edition, system, *options = head.split()
        if not options and (id, edition, system, stated) not in seen:
            seen.add((id, edition, system, stated))
            yield id, edition, system, stated


def governed(id, edition, system, stated):
    facts = {"weld_kind": "girth-butt", **dict(f.strip().split(" ", 1) for f in stated.split(";"))}
    for name in ("thicker_wall", "thinner_wall"):
        facts.setdefault(name, facts["wall"])
    known = {name: in_system(read(name, value), system) for name, value in facts.items()}
    limits = book(id, None if edition == "-" else edition, system).limits
    return demands(limits, {"both": known})


def test_a_rate():
    # ASME VIII-1 UCS-56(d): cooling at most 280 degC/h, printed beside 500 degF/h; 280 degC/h is
    # 504 degF/h, 275 degC/h is 495 degF/h.
    governing = governed("asme-viii-1", "2019", "SI", "p_number 1; wall 20 mm")["cooling rate"]
    start = governing.setter("maximum").above
    for stated, printed in (("280 degC/h", "280 (500)"), ("275 degC/h", "275 (495)")):
        rate = governing.printed(Quantity.read(stated, RATE), "maximum", start)
        assert BOTH.bare(rate, RATE, DOWN) == printed


def test_every_bound_of_every_book_is_shown_no_looser_than_it_is_printed():
    held = 0
    for case in cases():
        for governing in governed(*case).values():
            for direction, toward, sign in (("minimum", UP, 1), ("maximum", DOWN, -1)):
                setter = governing.setter(direction)
                if setter is None or setter.limit.pair is None:
                    continue
                bound = setter.bounds[direction]
                other = "US" if setter.limit.system == "SI" else "SI"
                beside = setter.bound_in(direction, other)
                if not isinstance(bound, Quantity) or bound.unit.partner is None:
                    continue
                made = governing.printed(bound, direction, setter.above)
                partner = bound.unit.partner
                shown = spoken(made, partner, toward).split()
                value = sum(Fraction(part) for part in shown)
                assert sign * value >= sign * beside.to(partner), (case, setter, shown)
                assert amount(BOTH, made, direction)
                held += 1
    assert held > 300


def test_a_figure_beside_goes_with_no_arithmetic():
    hot = Quantity.of(675, "degC", read("preheat", "1 degC").dimension)
    both = hot.with_beside(Quantity.of(1250, "degF", hot.dimension))
    assert both.show("degF", toward="up") == "1250 degF"
    assert both.show("degF", toward="down") == "1247 degF"
    assert both.show("degF") == "1247 degF"
    assert both.both(toward="up") == "675 degC (1250 degF)"
    assert (both - hot).beside is None
    assert both == hot
    assert hash(both) == hash(hot)
