"""Which of two demands asks for more. Common practice, no source."""

from __future__ import annotations

from hts.job.comparison import compare
from tests.rows import each_row
from tests.texts import spec_of


def _actions(old: str, new: str) -> list[str]:
    texts = (
        f"spec 1\n\nprocedure P-1 {{\n  revision {number} on 2026-01-01\n  {line}\n}}\n"
        for number, line in ((1, old), (2, new))
    )
    changes = compare(*map(spec_of, texts)).changes
    return [each.action for each in changes if each.row.kind == "demand"]


@each_row(
    ("old", "new", "action"),
    [
        ("requires monitor weld", "requires monitor weld count 2", "tightened"),
        ("requires monitor weld count 2", "requires at least 2 monitor weld", ""),
        ("requires monitor weld count 1", "requires monitor weld", ""),
        ("requires monitor soak edge", "requires monitor soak edge each side", "tightened"),
        ("requires control at 12:00", "requires control at 12:00, 6:00", "tightened"),
        ("requires control at 12:00, 6:00", "requires control at 12:00 at 6:00", ""),
        ("requires control at 12:00", "requires control at 3:00", "changed"),
        (
            "requires spare for all thermocouples within 25 mm",
            "requires spare for all thermocouples within 1 in",
            "loosened",
        ),
        (
            "requires guard band one-sided 95 %",
            "requires guard band expanded uncertainty",
            "tightened",
        ),
        ("calibration at most 365 d", "calibration at most 183 d", "tightened"),
        ("requires at most 4 monitor weld", "requires at most 3 monitor weld", "tightened"),
        ("requires at least 2 monitor weld", "requires at most 4 monitor weld", "changed"),
        (
            "requires thermocouples gauge at least 20",
            "requires thermocouples gauge at least 22",
            "tightened",
        ),
        ("recorder interval at most 60 s", "requires recorder interval at most 1 min", ""),
        ("recorder interval at most 60 s", "recorder interval at most 2 min", "loosened"),
        ("requires predicted lag at most 30 min", "requires predicted lag at most 1 h", "loosened"),
        ("requires thermocouples type K or N", "requires thermocouples type N", "tightened"),
        ("forbids thermocouples type K", "forbids thermocouples type K or N", "tightened"),
        (
            "forbids thermocouples attached energy at least 90 J",
            "forbids thermocouples attached energy at least 100 J",
            "loosened",
        ),
        (
            "requires heating insulation thickness at least 50 mm",
            "requires heating insulation thickness at least t",
            "changed",
        ),
        ("requires heating ends closed", "requires heating insulation layers 2", "changed"),
    ],
)
def test_more_or_less(old: str, new: str, action: str) -> None:
    back = {"tightened": "loosened", "loosened": "tightened"}
    assert _actions(old, new) == ([action] if action else [])
    assert _actions(new, old) == ([back.get(action, action)] if action else [])
