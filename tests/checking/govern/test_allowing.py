"""A line that allows sets free what a line forbids: that alone, and where its condition holds."""

from __future__ import annotations

from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import BASES
from tests.rows import each_row
from tests.texts import spec_of

FORBIDS = "  forbids thermocouples attached energy at least 50 J\n"


def kinds(lines: str) -> list[str]:
    # The welder's unit gives 100 J; the wall is 25.4 mm.
    text = BASES["procedure"]
    head, brace, rest = text.partition(
        "  revision         2 on 2026-03-01 status for construction\n"
    )
    assert brace
    return [f.kind.name for f in check_spec(spec_of(head + brace + lines + rest), None)]


@each_row(
    ("allows", "free"),
    [
        ("", False),
        ("  allows thermocouples attached energy at most 120 J\n", True),
        ("  allows thermocouples attached energy at most 60 J\n", False),
        ("  allows thermocouples attached energy at most 120 J when thicker_wall > 20 mm\n", True),
        ("  allows thermocouples attached energy at most 120 J when thicker_wall > 30 mm\n", False),
        ("  allows thermocouples extension length at most 120 m\n", False),
    ],
)
def test_what_is_free(allows: str, free: bool) -> None:
    before = kinds("")
    found = [kind for kind in kinds(FORBIDS + allows) if kind not in before]
    assert found == ([] if free else ["forbidden-entry"]), found
