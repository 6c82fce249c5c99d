"""The attachment card says what the text and the books say, each with what it rests on."""

from pathlib import Path

import pytest

from hts.base.text import Source
from hts.checking.rules.examples import changed
from hts.job.compiler import Job, compile_spec
from hts.language.model import Loader, Spec
from hts.paper.drawings import attachment_card
from hts.paper.drawings.card_rows import rows
from tests.jobs import job_at
from tests.paper.drawings.reading import outside, overlaps, words
from tests.paper.drawings.test_room import SPECS
from tests.sampling import whose_turn

SIZES = [(271.0, 147.0), (267.0, 180.0), (253.0, 150.0), (173.0, 225.0)]


def told(job: Job) -> dict[str, tuple[str, str]]:
    return {row.what: (row.value, row.basis) for row in rows(job, job.joints[0])}


def made(*changes: tuple[str, str], base: str = "butt") -> Job:
    return compile_spec(Spec(Source(changed(base, changes), "x.hts"), Loader("/")))


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]:g}x{size[1]:g}")
@pytest.mark.parametrize("path", whose_turn(SPECS), ids=lambda path: path.stem)
def test_good_specifications(path: Path, size: tuple[float, float]) -> None:
    job = job_at(path)
    for sheet in job.joints:
        svg = attachment_card(job, sheet, size)
        assert overlaps(svg) == [] and outside(svg) == []
        shown = " ".join(words(svg))
        assert "more in the specification" not in shown
        for row in rows(job, sheet):
            assert f"{row.what}: {row.value}  [{row.basis}]".replace("  ", " ") in shown
            assert row.mark in words(svg)


def test_what_the_text_states() -> None:
    found = told(made())
    assert found["wires apart"] == ("6 mm (0.236 in)", "specification")
    assert found["energy"] == ("100 J", "specification")
    assert found["each wire"] == ("attached by itself", "specification")
    assert found["cover"] == ("refractory putty", "specification")
    # IEC 60584-3: type K is green, its negative leg white.
    assert found["polarity of the wire"][0] == "+ green, – white"


def test_what_it_leaves_open_says_its_basis() -> None:
    found = told(made(("legs apart 6 mm energy 100 J each leg apart", "")))
    # AWS D10.10 8.3, from memory: 6 mm.
    assert found["wires apart"] == ("at most 6 mm (0.236 in)", "AWS D10.10 8.3, memory")
    assert found["energy"] == ("at most 125 J", "practice")
    assert found["each wire"][1] == "practice"
    assert found["bare length of each wire"][1] == "practice"


def test_a_pressed_junction_reads_hot() -> None:
    found = told(
        made(("capacitor discharge legs apart 6 mm energy 100 J each leg apart", "banded"))
    )
    assert found["reads too hot"][0] == "not stated" and "wires apart" not in found


def test_probe_and_crayon() -> None:
    found = told(made(base="preheat"))
    value, basis = found["when it lifts off"]
    assert "too low" in value and "overheated" in value and basis.startswith("derived")
    # 600 degF is a practice without a standard.
    assert found["trusted up to"] == ("600 °F (315 °C)", "practice")
    assert "200 °F" in found["first mark"][0] and "600 °F" in found["second mark"][0]
    assert "3 in" in found["where"][0]
