"""Times the temperature field of a pipe: `python -m tests.bench.field`.

Processor time of one thread, so that a busy machine does not bear on it; goals beside it.
"""

from __future__ import annotations

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import resource
import time
from collections.abc import Callable
from pathlib import Path

from hts.checking.govern.case import Case
from hts.language.model import Loader, Spec
from hts.language.model.load import root_of
from hts.predict.building import Builder
from hts.predict.course import follow
from hts.predict.scatter import scattered
from hts.predict.setting import setting_of
from hts.predict.widths import narrowest
from tests.science.field.pipes import NINE_CHROME, heated

SPEC = Path(__file__).parents[2] / "specs" / "p22-header.hts"
HOUR = 3600.0
TIMES = [0.0, 7.4 * HOUR, 9.4 * HOUR, 12.0 * HOUR]


def _setpoint(seconds: float) -> float:
    if seconds < TIMES[2]:
        return min(20.0 + seconds / 36.0, 760.0)
    return 760.0 - (seconds - TIMES[2]) / 36.0


def _timed(name: str, goal: float, work: Callable[[], object]) -> None:
    start = time.process_time()
    work()
    print(f"{name:55}{time.process_time() - start:8.2f} s   goal {goal:g} s")


def main() -> None:
    """The cycle of a thick 9Cr pipe, and its steady hold."""
    for zones, cells, goal in ((1, 1, 2.0), (4, 24, 12.0)):
        model = heated(0.45, 0.07, NINE_CHROME, band=0.5, zones=zones, cells_round=cells,
                       places=(0.065,))  # fmt: skip
        size = model.mesh.volume.size * cells

        def cycle(model=model, zones=zones) -> None:
            model.run(model.start(20.0), TIMES, targets=lambda t: [_setpoint(t)] * zones)

        _timed(f"12 h, {zones} zones, {size} cells", goal, cycle)
    _timed("steady hold, four zones", 0.15, lambda: model.steady(targets=[760.0] * 4))
    # What is predicted of a specification: a large header with four zones.
    loader = Loader(root_of(str(SPEC)))
    case = Case(Spec(loader.read(str(SPEC)), loader))
    setting = setting_of(case, next(iter(case.treatments(next(iter(case.joints()))))))
    builder = Builder(setting)
    _timed("200 samples of a hold, each input varied", 25.0, lambda: scattered(setting, builder))
    _timed("the treatment followed", 12.0, lambda: follow(setting, builder))
    _timed("narrowest bands", 5.0, lambda: narrowest(setting, 15.0))
    print(
        f"most memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB, goal 200"
    )


if __name__ == "__main__":
    main()
