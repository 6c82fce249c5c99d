"""The uncertainty of one recorded reading, and the guard band a specification names."""

from __future__ import annotations

from hts.science.uncertainty.budget import Budget, budget, resolution, tolerance
from hts.science.uncertainty.decision import Rule

#: The words of the language for a guard band, and the decision rules they stand for.
GUARDS: dict[str, Rule] = {
    "expanded uncertainty": "guarded",
    "one-sided 95 %": "one-sided 95 %",
}


def reading(wire: float, recorder: float, step: float | None = None) -> Budget:
    """Limits of error of wire and recorder and the smallest step shown, all in K."""
    terms = [tolerance("wire", wire), tolerance("recorder", recorder)]
    if step is not None:
        terms.append(resolution("resolution", step))
    return budget(terms)
