"""What stands in the record of each departure and each fault: a row every hour, and a digest of all
of them, of the same seed ever since it was kept."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from hts.record.plan import Plan
from hts.record.simulation import DEPARTURES, WIRING, Ask, simulate
from hts.record.simulation.wiring import CLOCK_JUMP, EXCHANGED
from tests import told
from tests.record.judging.made import file_plan, spec_plan

KEPT = Path(__file__).with_name("told") / "records.txt"
#: Two holds, and between them a step without a rate.
_TWO = (
    "cool to 300 degC  at most 120 degC/h\n",
    "heat to 710 degC\n  hold 700 .. 720 degC for 10 min\n  cool to 300 degC  at most 120 degC/h\n",
)


def _asks() -> Iterator[tuple[str, Plan, Ask]]:
    plain = spec_plan()
    yield "plain", plain, Ask(start=datetime(2026, 11, 21, 6, 0))
    yield "every 7 s", plain, Ask(seed=3, seconds=7.0)
    yield "two holds", spec_plan("", _TWO), Ask(seed=5)
    yield "p22-header", file_plan("p22-header.hts"), Ask(seed=4)
    yield "p91-pipe, tempering", file_plan("p91-pipe.hts", "tempering"), Ask(seed=4)
    for name in DEPARTURES:
        yield name, plain, Ask(seed=2, departures=(name,))
    yield "two holds, power-loss", spec_plan("", _TWO), Ask(departures=("power-loss", "short-hold"))
    for kind in (*WIRING, EXCHANGED, CLOCK_JUMP):
        yield kind, plain, Ask(seed=2, faults=((kind, "T2"),))
        yield f"{kind}, by chance", plain, Ask(seed=6, faults=((kind, ""), (kind, "")))


def _kept(text: str, seconds: float) -> str:
    """What comes before the rows, one an hour, those with a note, and the last; and a digest."""
    lines = text.splitlines()
    head = next(at for at, line in enumerate(lines) if line.startswith("time,"))
    rows = lines[head + 1 :]
    hourly = rows[:: round(3600 / seconds)]
    noted = [row for row in rows if lines[head].endswith(",event") and not row.endswith(",")]
    return "\n".join([*hourly, *noted, rows[-1], f"{len(rows)} rows, {told.digest(lines)}"])


def test_every_record_stays() -> None:
    texts = {name: _kept(simulate(of, ask), ask.seconds) for name, of, ask in _asks()}
    told.each_once(KEPT, texts)
