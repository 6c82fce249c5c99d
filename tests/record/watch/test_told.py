"""What is seen at the desk at some moments of each way a run can go, word for word."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np

from hts.record.watch import look, screen
from tests import told
from tests.record.judging.made import MINUTE
from tests.record.judging.ways import PLANS, WAYS, Run, made

KEPT = Path(__file__).with_name("told")
#: Minutes from the start: on the way up, in the range, held, cooling, done.
MOMENTS = (76.0, 256.0, 330.0, 420.0, 2000.0)
SOME = {
    "strict": (
        "sound", "too fast up", "two hot, one twice", "one cold for long",
        "one replaced when blank", "heater loss seen", "no rows for a while",
    ),
    "lenient": ("power off in the hold", "one not there", "begins cold", "too slow"),
    "several": ("sound", "one blank for a while", "without a date"),
}  # fmt: skip


def _until(run: Run, minutes: float) -> Run:
    kept = run.times <= minutes * MINUTE
    end = float(run.times[kept][-1])
    return run._replace(
        times=run.times[kept],
        courses={tag: values[kept] for tag, values in run.courses.items()},
        events=tuple(one for one in run.events if one.at <= end),
        faults=tuple(one._replace(end=min(one.end, end)) for one in run.faults if one.start <= end),
    )


def _the_same_as_data(line: str, shown: str) -> None:
    """What programs are told is what people see."""
    data = json.loads(line)
    for row in data["rows"]:
        (seen,) = (each for each in shown.splitlines() if each.split()[:1] == [row["tag"]])
        if row["reading"] is not None:
            shown_in = (f"{row['reading']:.1f} degC", f"{row['reading'] * 1.8 + 32:.1f} degF")
            assert any(one in seen for one in shown_in)
        assert all(f"{row[key] or ''}" in seen for key in ("duty", "zone", "place", "note"))
    assert len([each for each in shown.splitlines() if "ALARM" in each]) == len(data["alarms"])
    assert all(alarm in shown for alarm in data["alarms"])
    assert data["phase"] in shown and data["next"] in shown


def test_the_desk() -> None:
    seen = {f"{way}, {plan}": _desk(plan, way) for plan in SOME for way in SOME[plan]}
    told.each_once(KEPT / "desk.txt", seen)


def _desk(plan: str, way: str) -> str:
    asked = PLANS[plan]()
    lines: list[str] = []
    before: set[str] = set()
    for minutes in MOMENTS:
        run = _until(WAYS[way](), minutes)
        view = look(made(run), asked, run.faults, "2026-11-20")
        shown = screen.text(view, asked.job.units, colour=bool(lines and way == "too fast up"))
        now = shown.replace("\033", "ESC").splitlines()
        # What stands there as it stood a moment ago is kept once.
        lines += [f"-- after {minutes:g} min, as data {told.digest([screen.line(view)])}"]
        _the_same_as_data(screen.line(view), shown)
        lines += [line for line in now if line not in before]
        before = set(now)
        if np.isclose(run.times[-1], WAYS[way]().times[-1]):
            break
    return "\n".join(lines)
