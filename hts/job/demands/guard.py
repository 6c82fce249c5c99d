"""The guard band a specification asks for: limits drawn in by the uncertainty of a reading."""

from __future__ import annotations

from typing import NamedTuple

from hts.job.compiler.tolerance import wire_error
from hts.job.compiler.why import Why, derived
from hts.job.demands.asked import Asked
from hts.language.model.instrument import error_at
from hts.science.uncertainty.budget import budget, resolution, tolerance
from hts.science.uncertainty.decision import GUARDED_ORIGIN, ONE_SIDED_ORIGIN, Rule, guard_band

#: The rules of the language, and those of ILAC-G8 and ISO 14253-1 that they name.
_RULES: dict[str, tuple[Rule, str]] = {
    "expanded uncertainty": ("guarded", f"{GUARDED_ORIGIN.standard}:{GUARDED_ORIGIN.edition}"),
    "one-sided 95 %": (
        "one-sided 95 %",
        f"{ONE_SIDED_ORIGIN.standard}:{ONE_SIDED_ORIGIN.edition}",
    ),
}


class Guard(NamedTuple):
    """`width` K by which limits of temperature are drawn in, `standard` K the standard uncertainty
    of a reading. `rule` is None where the job asks for none; `lacks` names whose error the
    uncertainty cannot be worked out without."""

    rule: str | None
    width: float
    standard: float
    lacks: tuple[str, ...]
    why: Why | None


def guard(asked: Asked) -> Guard:
    """The guard band at the hottest hold, from the errors of the wire and of the recorder."""
    rule, target = asked.guard, asked.run.program.target
    if rule is None or target is None:
        return Guard(None, 0.0, 0.0, (), None)
    wire = wire_error(asked.sheet.joint, target)
    recorder = asked.run.program.recorder
    error = error_at(recorder, target) if recorder is not None else None
    lacks = [name for name, known in (("wire", wire), ("recorder", error)) if known is None]
    if wire is None or error is None:
        return Guard(rule, 0.0, 0.0, tuple(lacks), None)
    terms = [tolerance("wire", float(wire.error.value)), tolerance("recorder", float(error.value))]
    if recorder is not None and recorder.resolution is not None:
        terms.append(resolution("resolution", float(recorder.resolution.value)))
    u = budget(terms).standard
    name, source = _RULES[rule]
    width = guard_band(name, u)
    numbers = ", ".join(f"{term.name} {term.standard:.2f} K" for term in terms)
    return Guard(
        rule,
        width,
        u,
        (),
        derived("standard uncertainty × coverage", f"{numbers}: {width:.2f} K", source),
    )
