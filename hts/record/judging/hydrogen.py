"""The hydrogen a bake left in the wall, by estimate, against the share the text allows.

The estimate is that of `bake-leaves-hydrogen`, with what was read in place of what is asked for.
Steels that are known by a slow bound alone are met by that, and not met only where even carbon
steel would have kept too much: between the two nothing is shown.
"""

from __future__ import annotations

from math import ceil
from typing import Literal

import numpy as np

from hts.base.quantities import Quantity
from hts.checking.rules.helpers.metals import slow_for_hydrogen
from hts.language.vocabulary.cycle import Bake
from hts.record.judging.evidence import Evidence
from hts.record.judging.verdict import MET, NOT_MET, NOT_SHOWN, Failure, Outcome, Verdict
from hts.record.record import Floats
from hts.science.metallurgy.hydrogen import (
    MEASURED_ORIGIN,
    MEASURED_TO,
    SLOW_BOUND,
    SLOW_FROM,
    SLOW_ORIGIN,
    dose_of,
    share_left,
)

_HOUR = 3600.0


def verdicts(evidence: Evidence) -> list[Verdict]:
    """One of a bake that states `hydrogen left at most`; of the required thermocouple under which
    most is left. Time without readings takes none out."""
    bake = evidence.plan.entry
    if not isinstance(bake, Bake) or bake.hydrogen_left is None:
        return []
    most = bake.hydrogen_left
    wall = evidence.plan.sheet.limits.thickness
    slow = slow_for_hydrogen(evidence.plan.sheet.joint)
    outcome: Outcome = NOT_SHOWN
    actual = "no reading"
    failures: tuple[Failure, ...] = ()
    if not isinstance(wall, Quantity):
        actual = "the thickness of the wall is not known"
    elif left := _left(evidence, float(wall.value), 1 if bake.lining == "left" else 2, slow):
        share, tag = max(left)
        least = share
        # Upwards: what is too much is never shown as the most.
        actual = f"about {ceil(share * 1000) / 10:g} % left in {evidence.words.limit(wall)} ({tag})"
        if slow:
            quick = _left(evidence, float(wall.value), 1 if bake.lining == "left" else 2, False)
            least = max(quick)[0]
            actual += f", or {ceil(least * 1000) / 10:g} % were it carbon steel"
        blind = any(evidence.missing(one.tag) for one in evidence.required)
        if share * 100 <= float(most.value):
            outcome = MET
        elif least * 100 > float(most.value) and not (blind or evidence.row_gaps):
            outcome = NOT_MET
            sentence = f"{actual}, {most} is the most"
            failures = (Failure((tag,), 0.0, evidence.record.end, sentence),)
        doubt = evidence.doubt_of([tag])
        outcome = NOT_SHOWN if doubt else outcome
        actual += doubt
    why = evidence.plan.why("hydrogen_left", f"hydrogen left at most {most}")
    note = f"estimated by {MEASURED_ORIGIN}; quenched steels can be slower"
    if slow:
        note = f"estimated at {SLOW_BOUND:g} cm2/s from {SLOW_FROM:g} degC up by a {SLOW_ORIGIN}; "
        note += "what only carbon steel would keep is not shown"
    return [
        Verdict(
            "hydrogen left",
            evidence.plan.address,
            f"at most {most} of the hydrogen left in the wall, by estimate",
            actual,
            outcome,
            None,
            failures,
            why._replace(note=note),
        )
    ]


def _left(
    evidence: Evidence, wall: float, faces: Literal[1, 2], slow: bool
) -> list[tuple[float, str]]:
    """The share left under each required thermocouple with readings, and its tag; `slow` for a
    steel that is known by a bound alone."""
    found = []
    for one, values in zip(evidence.required, evidence.values, strict=True):
        if not np.isnan(values).all():
            dose = sum(
                dose_of(piece, lambda _: SLOW_BOUND, counted_from=SLOW_FROM)
                if slow
                else dose_of(piece)
                for piece in _known(evidence, values)
            )
            found.append((share_left(dose, wall, faces=faces), one.tag))
    return found


def _known(evidence: Evidence, values: Floats) -> list[list[tuple[float, float]]]:
    """The course (h, degC) in pieces without a gap; above what is measured as slow as there."""
    joined = ~np.isnan(values)
    apart = np.diff(evidence.times) > evidence.longest_gap
    cuts = np.flatnonzero((np.diff(joined.astype(np.int8)) != 0) | apart) + 1
    pieces = []
    for rows in np.split(np.arange(len(values)), cuts):
        if joined[rows].all() and len(rows) > 1:
            degrees = np.minimum(values[rows], MEASURED_TO)
            pieces.append(
                list(zip((evidence.times[rows] / _HOUR).tolist(), degrees.tolist(), strict=True))
            )
    return pieces
