"""The solver as every part of a plan uses it."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from typing import Any


def solve(cp: Any, model: Any, effort: float) -> tuple[Any, Any]:
    """The solver after its work, and how that ended. ``effort``: seconds of its own clock.

    One worker, one seed and that clock: the same job gives the same plan. It works beside, so that
    an interruption ends it at once; by itself it would take a Ctrl-C for the end of its effort,
    give what it has by then as a plan, and let no later one through.
    """
    solver = cp.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = effort
    solver.parameters.catch_sigint_signal = False
    with ThreadPoolExecutor(1) as beside:
        working = beside.submit(solver.Solve, model)
        try:
            return solver, working.result()
        except BaseException:
            solver.StopSearch()
            raise
