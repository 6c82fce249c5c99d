"""A value is judged by the figure printed in its own system of units, and paper changes nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.base.findings import Finding
from hts.base.quantities import LENGTH, Quantity
from hts.base.text import Source
from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import BASES, changed
from hts.language.model import Loader, Spec
from hts.limits import book, demands
from tests.rows import each_row
from tests.sampling import whose_turn

SPECS = Path(__file__).parents[3] / "specs"


def _check(text: str, name: str = "example.hts", root: str = "/") -> list[Finding]:
    return check_spec(Spec(Source(text, name), Loader(root)))


@pytest.mark.parametrize("show", whose_turn(["SI", "US", "SI and US", "US and SI"]))
@pytest.mark.parametrize("base", [base for base in BASES if "show " in BASES[base]])
def test_what_paper_shows_changes_no_verdict(base: str, show: str) -> None:
    line = next(line for line in BASES[base].splitlines() if line.strip().startswith("show "))
    # A preheat that is just short of the figures printed: 95 degC beside 200 degF.
    for preheat in ("150 degC", "149 degC", "300 degF", "299 degF", "200 degF", "199 degF"):
        stated = next(
            each for each in BASES[base].splitlines() if each.strip().startswith("at least")
        )
        changes = ((line, f"  show {show}"), (stated, f"  at least {preheat}"))
        plain = (changes[1],)
        kinds = [finding.kind.name for finding in _check(changed(base, changes))]
        assert kinds == [finding.kind.name for finding in _check(changed(base, plain))]


@each_row(
    ("wall", "preheat", "needed"),
    [
        # ASME B31.3-2018 Table 331.1.3, P-1: exempt where nominal thickness over 25 mm (1 in) is
        # preheated to 95 degC (200 degF).
        ("1 in", "50 degF", False),
        ("25.4 mm", "10 degC", True),
        ("25 mm", "10 degC", False),
        ("1.01 in", "50 degF", True),
        ("1.01 in", "200 degF", False),
        ("30 mm", "95 degC", False),
        # 200 degF is 93.3 degC: enough for whoever works in degF, short for whoever writes degC.
        ("30 mm", "93.3 degC", True),
    ],
)
def test_a_wall_is_judged_in_the_unit_it_is_written_in(
    wall: str, preheat: str, needed: bool
) -> None:
    from hts.base.quantities import TEMPERATURE

    facts = {
        "p_number": "1",
        "weld_kind": "girth-butt",
        "layers": "multiple",
        "thicker_wall": Quantity.read(wall, LENGTH),
        "wall": Quantity.read(wall, LENGTH),
        "preheat": Quantity.read(preheat, TEMPERATURE),
    }
    for system in ("SI", "US"):
        limits = book("asme-b31.3", "2018", system).limits  # type: ignore[arg-type]
        status = demands(limits, {"both": facts})["post-weld heat treatment"].status  # type: ignore[dict-item]
        assert (status == "required") is needed, (system, status)


@each_row(
    ("held", "told"),
    [
        # ASME B31.3-2016 Table 331.1.1, P-5A: 675 to 760 degC (1250 to 1400 degF).
        ("675 .. 730 degC", False),
        ("674 .. 730 degC", True),
        ("1250 .. 1346 degF", False),
        ("1248 .. 1346 degF", True),
    ],
)
def test_a_hold_is_judged_in_the_unit_it_is_written_in(held: str, told: bool) -> None:
    changes = (("700 .. 730 degC", held), ("to 715 degC ", "to 700 degC "))
    kinds = [finding.kind.name for finding in _check(changed("butt", changes))]
    assert ("hold-temperature-outside-limits" in kinds) is told


def test_pipe_by_schedule_is_in_the_units_of_the_joint() -> None:
    """NPS 12 schedule 120 has 1.000 in, printed 25.4 mm (ASME B36.10M)."""
    base = (
        BASES["butt"]
        .replace('"A335 P22"', '"A106-B"')
        .replace("  wall       25.4 mm measured\n", "")
    )
    for cap, wanted in (("30 mm", "mm"), ("1 3/16 in", "in")):
        from hts.checking.govern.case import Case

        spec = Spec(
            Source(base.replace("cap width  30 mm", f"cap width  {cap}"), "a.hts"), Loader("/")
        )
        (joint,) = Case(spec).joints()
        wall = Case(spec).limits(joint).facts["upstream"]["wall"]
        assert isinstance(wall, Quantity)
        assert wall.unit.symbol == wanted
