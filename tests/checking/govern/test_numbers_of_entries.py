"""How many of an entry a procedure asks for, and what is no demand. Common practice, no source."""

from __future__ import annotations

import pytest

from hts.checking.checker import check_spec
from hts.checking.rules.examples import BUTT
from tests.texts import spec_of


def _told(line: str, earlier: int = 0) -> list[str]:
    text = BUTT.replace("  governed by", "  follows P-1\n  governed by")
    heated = '  already heated 2 h at 690 degC "shop"\n' * earlier
    text = text.replace("  made in    field\n", f"  made in    field\n{heated}")
    spec = spec_of(f"{text}\nprocedure P-1 {{\n  revision 1 on 2026-01-01\n  {line}\n}}\n")
    assert [found.message for found in spec.findings] == []
    findings = check_spec(spec, "2026-11-25")
    return [found.message for found in findings if found.kind.code in ("R111", "R112")]


@pytest.mark.parametrize(
    ("line", "earlier", "met"),
    [
        ("requires at most 1 already heated", 0, True),
        ("requires at most 1 already heated", 1, True),
        ("requires at most 1 already heated", 2, False),
        ("requires at least 2 thermocouple monitors soak edge", 0, True),
        ("requires at least 3 thermocouple monitors soak edge", 0, False),
        ("requires at most 2 thermocouple monitors soak edge", 0, True),
        ("requires at most 1 thermocouple monitors soak edge", 0, False),
        ("requires at least 1 at most 2 thermocouple monitors soak edge", 0, True),
        ("forbids at least 3 thermocouple monitors soak edge", 0, True),
        ("forbids at least 2 thermocouple monitors soak edge", 0, False),
        ("forbids thermocouple monitors soak edge", 0, False),
    ],
)
def test_so_many(line: str, earlier: int, met: bool) -> None:
    assert (_told(line, earlier) == []) is met


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("requires mechanical stress relief", "not done by heat"),
        ("forbids vibratory stress relief", "not done by heat"),
        # What follows the stage was once taken for the name of a joint.
        ("requires after heat hydrotest", "not expected"),
        ("requires before heat internal", "not expected"),
    ],
)
def test_what_is_no_demand(line: str, words: str) -> None:
    text = f"spec 1\n\nprocedure P-1 {{\n  revision 1 on 2026-01-01\n  {line}\n}}\n"
    (found,) = spec_of(text).findings
    assert words in f"{found.message} {found.help}"
