"""How often faults and departures that were put into simulated records are found, and how often
something is found in clean ones. Run: python -m tests.record.detection --records 50 --clean 200"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
from concurrent.futures import ProcessPoolExecutor
from datetime import datetime
from functools import lru_cache
from multiprocessing import get_context
from pathlib import Path
from typing import NamedTuple

from hts.job.compiler import compile_spec
from hts.language.model import Loader, Spec
from hts.language.model.load import root_of
from hts.record import faults
from hts.record.judging import MET, Judgement, judge
from hts.record.plan import Plan, plan
from hts.record.reading import Options, read
from hts.record.simulation import DEPARTURES, WIRING, Ask, simulate
from hts.record.simulation.wiring import OF_THE_RECORD
from tests.record.alterations import ALTERATIONS, altered

OF_THE_PROGRAM = (*WIRING, *OF_THE_RECORD)
ROOT = Path(__file__).parents[2]
CLEAN = "clean"
#: Requirement that a departure breaks.
BREAKS = {
    "over-rate": ("heating rate",),
    "cooled-too-fast": ("cooling rate",),
    "short-hold": ("hold time",),
    "too-hot": ("highest temperature",),
    "too-cold": ("time outside the hold range", "spread during the hold"),
    "wide-spread": ("spread while heating and cooling", "heating rate"),
    "power-loss": ("power loss",),
    "broken-hold": ("power loss",),
    "heater-loss": ("hold time", "heater loss"),
    "late-start": ("start of the record",),
    "early-end": ("end of the record",),
    "gap": ("readings",),
}


class Trial(NamedTuple):
    """`kind` is a fault, a departure or CLEAN."""

    spec: str
    kind: str
    seed: int


class Outcome(NamedTuple):
    """Whether it was found at all, and told as what it is; `others` are faults told besides, and
    what is not met or not shown in a clean record."""

    kind: str
    found: bool
    named: bool
    others: tuple[str, ...]


@lru_cache(maxsize=4)
def run_of(spec: str) -> Plan:
    path = str(ROOT / "specs" / f"{spec}.hts")
    loader = Loader(root_of(path))
    return plan(compile_spec(Spec(loader.read(path), loader)))


def text_of(trial: Trial) -> str:
    """The log of a run of it."""
    run = run_of(trial.spec)
    recorder = run.run.program.recorder
    every = float(recorder.interval.value) if recorder is not None and recorder.interval else 60.0
    ask = Ask(trial.seed, every, datetime.fromisoformat(f"{run.job.document.dated}T06:00"))
    if trial.kind in DEPARTURES:
        ask = ask._replace(departures=(trial.kind,))
    elif trial.kind in OF_THE_PROGRAM:
        ask = ask._replace(faults=((trial.kind, ""),))
    text = simulate(run, ask)
    if trial.kind not in (*OF_THE_PROGRAM, *DEPARTURES, CLEAN):
        held = [one.tag for one in run.required if f",{one.tag} [" in text]
        text = altered(text, trial.kind, held, trial.seed)
    return text


def tried(trial: Trial) -> Outcome:
    run = run_of(trial.spec)
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "log.csv")
        Path(path).write_text(text_of(trial))
        record = read([path], run.run.tags, Options())
    told = faults.find(record, run)
    judgement = judge(faults.apply(record, told), run, told)
    return outcome(trial, told, judgement)


def outcome(trial: Trial, told: tuple[faults.Fault, ...], judgement: Judgement) -> Outcome:
    open_ones = {v.requirement for v in judgement.verdicts if v.verdict != MET and not v.elsewhere}
    kinds = tuple(sorted({one.kind for one in told}))
    if trial.kind == CLEAN:
        return Outcome(CLEAN, bool(told), False, (*kinds, *sorted(open_ones)))
    if trial.kind in DEPARTURES:
        wanted = BREAKS[trial.kind]
        named = any(any(name.startswith(one) for one in wanted) for name in open_ones)
        return Outcome(trial.kind, bool(open_ones), named, kinds)
    names = {trial.kind}
    if trial.kind not in OF_THE_PROGRAM:
        names = set(ALTERATIONS[trial.kind][1])
    others = tuple(kind for kind in kinds if kind not in names)
    return Outcome(trial.kind, bool(told), bool(names & set(kinds)), others)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--spec", default="p22-header")
    parser.add_argument("--records", type=int, default=50)
    parser.add_argument("--clean", type=int, default=200)
    parser.add_argument("--first", type=int, default=0, help="first seed of each kind")
    parser.add_argument("--jobs", type=int, default=2)
    asked = parser.parse_args()
    kinds = [*OF_THE_PROGRAM, *ALTERATIONS, *DEPARTURES]
    seeds = range(asked.first, asked.first + asked.records)
    trials = [Trial(asked.spec, kind, seed) for kind in kinds for seed in seeds]
    trials += [Trial(asked.spec, CLEAN, 10_000 + asked.first + at) for at in range(asked.clean)]
    os.environ.setdefault("POLARS_MAX_THREADS", "1")
    with ProcessPoolExecutor(asked.jobs, get_context("spawn")) as pool:
        outcomes = list(pool.map(tried, trials, chunksize=10))
    print(f"{asked.spec}: {asked.records} records of each kind, {asked.clean} clean, ", end="")
    print(f"seeds from {asked.first} on")
    print(f"{'kind':20}  {'found':>6}  {'named':>6}  told besides")
    for kind in [*kinds, CLEAN]:
        mine = [one for one in outcomes if one.kind == kind]
        besides: dict[str, int] = {}
        for one in mine:
            for other in one.others:
                besides[other] = besides.get(other, 0) + 1
        said = ", ".join(f"{name} {count}" for name, count in sorted(besides.items()))
        found, named = (
            f"{sum(getattr(one, field) for one in mine) / max(1, len(mine)):.0%}"
            for field in ("found", "named")
        )
        print(f"{kind:20}  {found:>6}  {named if kind != CLEAN else '':>6}  {said}")


if __name__ == "__main__":
    sys.exit(main())
