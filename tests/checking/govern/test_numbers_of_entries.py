"""How many of an entry a procedure asks for, and what is no demand. Common practice, no source."""

from __future__ import annotations

import pytest

from hts.checking.checker import check_spec
from hts.checking.rules.examples import BUTT
from tests.rows import each_row
from tests.texts import spec_of


def _told(line: str, earlier: int = 0, *, copies: bool = False) -> list[str]:
    text = BUTT.replace("  governed by", "  follows P-1\n  governed by")
    heated = '  already heated 2 h at 690 degC "shop"\n' * earlier
    text = text.replace("  made in    field\n", f"  made in    field\n{heated}")
    if copies:
        text = text.replace("  signed {", '  copy to  "Inspector", "Engineer"\n  signed {')
    spec = spec_of(f"{text}\nprocedure P-1 {{\n  revision 1 on 2026-01-01\n  {line}\n}}\n")
    assert [found.message for found in spec.findings] == []
    findings = check_spec(spec, "2026-11-25")
    return [found.message for found in findings if found.kind.code in ("R111", "R112")]


@each_row(
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
        ("requires monitor soak edge count 2", 0, True),
        ("requires monitor soak edge count 1 each side", 0, True),
        ("requires monitor soak edge count 2 each side", 0, False),
        ("requires monitor soak edge at 12:00 at 6:00", 0, True),
        ("requires monitor soak edge at 12:00 at 6:00 count 2", 0, True),
        ("requires monitor soak edge at 12:00 at 6:00 count 3", 0, False),
        ("requires monitor soak edge at 12:00 at 9:00", 0, False),
        ("requires control at 12:00, 6:00", 0, True),
        ("requires control at 12:00, 9:00", 0, False),
        ("forbids control at 9:00", 0, True),
        ("forbids monitor soak edge each side", 0, False),
        ("forbids monitor weld each side", 0, True),
        ("forbids monitor soak edge count 3", 0, True),
        ("requires spare for controlling thermocouples within 20 mm", 0, True),
        ("requires spare for controlling thermocouples within 10 mm", 0, False),
        ("requires spare for all thermocouples", 0, False),
        ("requires control all zones", 0, True),
        # The butt has two zones and does not say so in figures.
        ("requires zones at least 2", 0, True),
        ("requires zones at least 3", 0, False),
        ("requires guard band one-sided 95 %", 0, False),
        ("forbids guard band none", 0, True),
        ("recorder interval at most 60 s", 0, True),
        ("recorder interval at most 59 s", 0, False),
    ],
)
def test_so_many(line: str, earlier: int, met: bool) -> None:
    assert (_told(line, earlier) == []) is met


@each_row(
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


@each_row(
    ("line", "met"),
    [
        # T1 controls at 12:00 and T2 at 6:00; soak edge and heated edge are monitored.
        ("requires thermocouple controls at 12:00, 6:00", True),
        ("requires thermocouple controls at 12:00 and 6:00", True),
        ("requires thermocouple controls at 12:00 and 3:00", False),
        ("requires thermocouple controls at 12:00 or 6:00", True),
        ("requires thermocouple controls at 12:00 or 3:00", True),
        ("requires thermocouple controls at 1:30 or 3:00", False),
        ("requires thermocouple monitors soak edge and heated edge", True),
        ("requires thermocouple monitors soak edge and gradient edge", False),
        ("requires thermocouple monitors soak edge, heated edge and gradient edge", False),
        ("requires thermocouple monitors soak edge, heated edge or gradient edge", True),
        ("forbids thermocouple monitors soak edge and gradient edge", False),
        ('requires job copy to "Inspector", "Class surveyor"', False),
        ('requires job copy to "Inspector" and "Engineer"', True),
        ('requires job copy to "Inspector" or "Class surveyor"', True),
    ],
)
def test_all_of_a_list_or_one_of_it(line: str, met: bool) -> None:
    assert (_told(line, copies=True) == []) is met


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("requires thermocouples type K, N", "part them by `or`"),
        ("requires heating by resistance and induction", "part them by `or`"),
        ('requires job copy to "A", "B" or "C" and "D"', "`and` and `or`"),
    ],
)
def test_a_list_no_job_can_say(line: str, words: str) -> None:
    text = f"spec 1\n\nprocedure P-1 {{\n  revision 1 on 2026-01-01\n  {line}\n}}\n"
    (found,) = spec_of(text).findings
    assert words in f"{found.message} {found.help}"
