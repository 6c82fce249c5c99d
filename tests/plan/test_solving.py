"""The solver can be interrupted, while it works and after."""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Iterator

import pytest

cp = pytest.importorskip("ortools.sat.python.cp_model", reason="plans need the extra `plan`")

from hts.plan.solving import solve  # noqa: E402

pytestmark = pytest.mark.skipif(os.name == "nt", reason="needs signals")


@pytest.fixture(autouse=True)
def interruptible() -> Iterator[None]:
    """A process started in the background may have been told to pass over interruptions."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


def _pigeons(holes: int) -> object:
    """One more than there are holes: a search without an end, for a solver without symmetries."""
    model = cp.CpModel()
    there = [[model.NewBoolVar("") for _ in range(holes)] for _ in range(holes + 1)]
    for row in there:
        model.AddBoolOr(row)
    for hole in range(holes):
        for one in range(holes + 1):
            for other in range(one):
                model.AddBoolOr([there[one][hole].Not(), there[other][hole].Not()])
    return model


def _interrupted() -> None:
    os.kill(os.getpid(), signal.SIGINT)


def test_an_interruption_ends_the_work_and_is_not_taken_for_its_end() -> None:
    timer = threading.Timer(0.2, _interrupted)
    timer.start()
    with pytest.raises(KeyboardInterrupt):
        while True:
            solve(cp, _pigeons(14), 60.0)


def test_after_the_work_an_interruption_is_an_exception_as_before() -> None:
    model = cp.CpModel()
    model.Maximize(model.NewIntVar(0, 9, ""))
    solver, status = solve(cp, model, 1.0)
    assert (status, solver.ObjectiveValue()) == (cp.OPTIMAL, 9)
    with pytest.raises(KeyboardInterrupt):
        _interrupted()
        signal.sigtimedwait([], 1)
