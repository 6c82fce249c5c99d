"""A procedure that says what a job says is told how it is asked for. Common practice, no source."""

from __future__ import annotations

import re

import pytest

from hts.base.findings import Finding
from tests.rows import each_row
from tests.texts import spec_of


def _findings(line: str) -> list[Finding]:
    text = f"spec 1\n\nprocedure P-1 {{\n  revision 1 on 2026-01-01\n  {line}\n}}\n"
    return list(spec_of(text).findings)


@each_row(
    ("line", "rest"),
    [
        ("gauge 20", "20"),
        ("keep records 1826 d", "1826 d"),
        ("waive missing-spare", "missing-spare"),
        ("chart speed 25 mm/h", "25 mm/h"),
        ("cool in insulation", "insulation"),
        ("hardness weld at most 225 HBW", "weld at most 225 HBW"),
        ('marking "SR"', '"SR"'),
        ("welding process", '"SMAW"'),
    ],
)
def test_the_form_that_asks_for_it_is_offered_and_reads(line: str, rest: str) -> None:
    (found,) = _findings(line)
    offered = re.findall("`(requires [^`…]*)…?`", found.help)
    assert offered, found.help
    for words in offered:
        assert _findings(f"{words.strip()} {rest}") == []


@pytest.mark.parametrize("number", ["2", "4"])
def test_a_bare_number_says_neither_least_nor_most(number: str) -> None:
    (found,) = _findings(f"requires {number} thermocouple monitors soak edge")
    assert f"`at least {number}`" in found.help and f"`at most {number}`" in found.help
