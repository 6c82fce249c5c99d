"""What is right passes without a word: no false alarm on other right work, or on the same written
otherwise."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from hts.base.quantities import LENGTH, Quantity, symbols_of
from hts.base.text import Source
from hts.language.vocabulary.formulas import Expression
from tests.corruption.digits import other_units
from tests.corruption.places import Places, places
from tests.rows import each_row
from tests.specs.found import SPECS, changed, checked
from tests.specs.variation import Variation
from tests.specs.variations import VARIATIONS

HERE = Path(__file__).parent
RIGHT = sorted((HERE / "right").glob("*.hts"))

#: Right work that has findings all the same, and why it still does.
STILL_TOLD: dict[str, str] = {}


def test_there_are_forty() -> None:
    assert len(VARIATIONS) + len(RIGHT) >= 40
    assert len({variation.name for variation in VARIATIONS}) == len(VARIATIONS)


@each_row("variation", VARIATIONS, ids=lambda v: v.name)
def test_a_right_variation_has_no_finding(variation: Variation) -> None:
    path = next(
        folder / f"{variation.job}.hts"
        for folder in (SPECS, HERE / "jobs")
        if (folder / f"{variation.job}.hts").exists()
    )
    text = changed(path.read_text("utf-8"), variation.changes)
    assert [str(finding.message) for finding in checked(path, text)] == []


@each_row("path", RIGHT, ids=lambda path: path.stem)
def test_right_work_has_no_finding(path: Path) -> None:
    found = [str(finding.message) for finding in checked(path, path.read_text("utf-8"))]
    if path.stem in STILL_TOLD:
        assert found, "told no more: take it off the list"
        pytest.xfail(STILL_TOLD[path.stem])
    assert found == []


def _exact(value: Quantity, unit: str) -> str | None:
    """The value in another unit where a few decimals say it exactly."""
    number = value.to(unit)
    text = f"{float(number):.5f}".rstrip("0").rstrip(".")
    return f"{text} {unit}" if Fraction(text) == number else None


def _in_other_units(text: str, found: Places) -> Iterator[str]:
    for value in found.values:
        dimension = getattr(value.type, "dimension", LENGTH)
        item = value.items[0]
        if item.kind != "QUANTITY" or isinstance(value.type, Expression):
            continue
        written = Quantity.read(text[item.start : item.end], dimension)
        if written.unit.scale:  # hardness scales do not convert
            continue
        for unit in [u for u in symbols_of(dimension) if u in other_units(written.unit.symbol)]:
            new = _exact(written, unit)
            if new is not None:
                yield f"{text[: item.start]}{new}{text[item.end :]}"


@pytest.mark.parametrize("job", ["p22-header", "carbon-steel-butt", "induction-preheat"])
def test_the_same_value_in_another_unit_has_no_finding(job: str) -> None:
    path = SPECS / f"{job}.hts"
    text = path.read_text("utf-8")
    for other in list(_in_other_units(text, places(Source(text, job))))[::5]:
        told = [f for f in checked(path, other) if f.kind.name != "mixed-temperature-units"]
        assert told == [], other
