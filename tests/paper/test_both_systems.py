"""Every figure on the sheets of a job, in SI and in US units, is on the safe side of its value.

The sheets are made three times: in each system as they are printed, and with every figure written
out to six decimals. So each printed figure has its value in the same place. A least is never
printed lower than it is, a most never higher, and what is neither is the nearest; which of them it
is, is read off the words before the figure or its heading, as a person does. The values of the two
systems are the same by conversion, but where a book prints a pair.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from hts.base.text import Source
from hts.job.compiler import Job, compile_spec
from hts.language.model import Spec
from tests.paper.figures import unlike, unlike_sheets, unsafe, unsafe_packet, unsafe_sheets
from tests.paper.packet.jobs import ALL, ROOT
from tests.rows import each_row
from tests.sampling import whose_turn
from tests.texts import examples

JOBS = [*ALL, *sorted((ROOT / "tests/specs/jobs").glob("*.hts"))]
#: Their packets have every block there is; those of the others would take long.
PACKETS = [path for path in JOBS if path.stem in ("p22-header", "induction-preheat", "vessel")]
_SHOW = re.compile(r"(?m)^(  show +).*$")


@cache
def in_units(path: Path, system: str) -> Job:
    """The job of a specification that asks for one system of units on paper."""
    text, changed = _SHOW.subn(rf"\g<1>{system}", path.read_text(encoding="utf-8"))
    assert changed == 1
    loader = examples()
    return compile_spec(Spec(Source(text, path.name, str(path)), loader))


@pytest.mark.parametrize("path", whose_turn(JOBS, 3), ids=lambda path: path.stem)
@pytest.mark.parametrize("system", ["SI", "US"])
def test_the_figures_of_the_sheets(path: Path, system: str) -> None:
    assert list(unsafe_sheets(in_units(path, system))) == []


@pytest.mark.parametrize("path", whose_turn(JOBS, 3), ids=lambda path: path.stem)
def test_the_values_of_the_sheets_in_both_systems(path: Path) -> None:
    assert list(unlike_sheets(in_units(path, "SI"), in_units(path, "US"))) == []


@pytest.mark.parametrize("path", PACKETS, ids=lambda path: path.stem)
@pytest.mark.parametrize("system", ["SI", "US"])
def test_the_figures_of_the_packet(path: Path, system: str) -> None:
    assert list(unsafe_packet(in_units(path, system))) == []


@each_row(
    ("printed", "exact"),
    [
        ("at least 121 mm", "at least 121.2 mm"),
        ("at least 4 3/4 in", "at least 4.771654 in"),
        ("at most 139 °C/h above 300 °C", "at most 138.888889 °C/h above 300 °C"),
        ("at most 126 °C/h above 316 °C", "at most 126 °C/h above 315.555556 °C"),
        ("at least 177 °C", "at least 175 °C"),
        ("690 to 721 °C", "690 to 720.5 °C"),
        ("at 705 °C, at most 31 K", "at 705 °C, at most 30.6 K"),
    ],
)
def test_the_wrong_side_is_seen(printed: str, exact: str) -> None:
    assert len(list(unsafe(printed, exact))) == 1


@each_row(
    ("si", "us"),
    [
        ("at most 300 °C", "at most 540 °F"),
        ("at most 30 K", "at most 86 °F"),
        ("at least 122 mm", "at least 3.8 in"),
        ("channel 3", "channel 4"),
        ("at least 2 h", "at most 2 h"),
    ],
)
def test_another_value_is_seen(si: str, us: str) -> None:
    assert len(list(unlike(si, us))) == 1
