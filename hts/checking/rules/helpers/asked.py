"""What procedures ask for beyond limits: monitors, spares, the recorder's interval."""

from __future__ import annotations

from typing import Any

from hts.checking.govern import Authority, JointLimits
from hts.checking.govern.applying import applies, holds, known
from hts.checking.govern.case import Case


def asked(case: Case, limits: JointLimits, field: str) -> list[tuple[Authority, Any]]:
    """The lines of a field (``monitors``, ``spares``) that apply to a joint, with their source.

    A line whose condition hangs on an unknown fact does not apply: the limits that hang on the
    same facts are reported as undecided.
    """
    found = []
    for authority in case.authorities:
        procedure = authority.procedure
        lines = getattr(procedure, field) if procedure is not None else ()
        if lines and procedure is not None and applies(procedure, limits):
            found += [
                (authority, line)
                for line in lines
                if getattr(line, "when", None) is None or _holds(line.when, limits)
            ]
    return found


def _holds(condition: Any, limits: JointLimits) -> bool:
    return any(holds(condition.text, facts) for facts in known(limits).values())


def open_point_on(case: Case, *words: str) -> bool:
    """Whether something is on the hold list: the document is not for construction before."""
    job = case.spec.file.job
    points = job.open_points if job is not None else []
    return any(
        point.closed is None and any(word in point.text.lower() for word in words)
        for point in points
    )
