"""What a prediction of the temperature field says, as rules need it.

Predictions are worked out in a room above this one, that needs numpy: it is loaded by name, as a
rule pack is, and only for a text that says `predict` or a check that asks for it.
"""

from __future__ import annotations

import os
from importlib import import_module
from typing import Any, NamedTuple

from hts.base.text import Span

#: The module that predicts, and what has to be installed for it.
PREDICTS, NEEDED = "hts.predict.foresee", ("numpy", "scipy")


class Answer(NamedTuple):
    """One thing asked for: its words and where it is asked, what is predicted, whether it holds;
    `own`: the job itself asks for it.

    `what` is "soak band", "lag" or "axial gradient".
    """

    what: str
    asked: str
    by: str
    at: Span
    predicted: str
    holds: bool
    own: bool


class ShortZone(NamedTuple):
    """A zone that is predicted to be at its greatest power and behind, for minutes; W."""

    name: str
    power: float
    minutes: float


class Unforeseen(NamedTuple):
    """Why there is no prediction of a treatment."""

    reason: str
    not_installed: bool = False


class Foreseen(NamedTuple):
    """A prediction of one treatment.

    Temperatures degC: `window` judged by, `lowest` and `highest` of the soak band at the end of
    the hold as stated, at 5 % and at 95 %, with their places in words. `share` of cases in which
    the whole band is in range, of which `wanted` is asked. `cure`: how wide a band would have to
    be, mm, None where no width does it; `left` K it leaves; `heated` mm as
    stated. `first`: the input that moves the lowest most. `margin` K of the highest below the
    lower critical temperature, as stated and at 95 %. `sides` K by which the lowest of the two
    sides differ. `dip` K beside a gap.
    """

    answers: tuple[Answer, ...]
    window: tuple[float, float]
    target: float
    lowest: tuple[float, float, float]
    coldest: str
    highest: tuple[float, float, float]
    hottest: str
    share: float
    wanted: float
    minutes: tuple[float, float]
    cure: float | None
    left: float
    heated: float
    first: str
    lined: bool
    margin: tuple[float, float] | None
    critical: str
    unwatched: tuple[bool, bool]
    short: tuple[ShortZone, ...]
    dip: float
    sides: float
    bore: str
    bore_known: bool

    @property
    def in_range(self) -> bool:
        """Whether the whole soak band is in range in as many cases as are wanted."""
        return self.share >= self.wanted


def foreseen(case: Any, treatment: Any) -> Foreseen | Unforeseen:
    """The prediction of one treatment of a Case; a reason where what it needs is not installed."""
    # Small systems are solved fastest by one thread; more would only wait for each other.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    try:
        module = import_module(PREDICTS)
    except ModuleNotFoundError as error:
        if (error.name or "").partition(".")[0] not in NEEDED:
            raise
        reason = f'{error.name} is not installed; run: pip install "hts[predict]"'
        return Unforeseen(reason, not_installed=True)
    found: Foreseen | Unforeseen = module.foreseen(case, treatment)
    return found
