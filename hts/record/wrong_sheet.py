"""A run that was made to a sheet with errors: what the sheet asks for is judged all the same, for
the metal was heated, and nothing is met until the sheet is put right."""

from __future__ import annotations

from hts.base.findings import Finding
from hts.record.judging.judgement import Judgement
from hts.record.judging.verdict import NOT_SHOWN, Verdict

#: Errors that are named.
_MOST = 3


def judged(judgement: Judgement, errors: tuple[Finding, ...]) -> Judgement:
    """With a verdict on the errors of the specification, where it has any."""
    if not errors:
        return judgement
    verdict = Verdict(
        "specification",
        judgement.plan.joint,
        "without errors",
        f"{_counted(errors)}; judged by what it says",
        NOT_SHOWN,
        None,
        (),
        None,
    )
    return judgement._replace(verdicts=(verdict, *judgement.verdicts))


def alarm(errors: tuple[Finding, ...]) -> tuple[str, ...]:
    """The same for a run that goes on; nothing where there are none."""
    if not errors:
        return ()
    return (
        f"the specification has {_counted(errors)}; what is shown is held to what it says; to do: "
        "ask who wrote it, before the run goes on",
    )


def _counted(errors: tuple[Finding, ...]) -> str:
    named = ", ".join(map(_named, errors[:_MOST]))
    more = f" and {len(errors) - _MOST} more" if len(errors) > _MOST else ""
    count = f"{len(errors)} errors" if len(errors) > 1 else "1 error"
    return f"{count}: {named}{more}"


def _named(error: Finding) -> str:
    line, _ = error.source.position(error.at.span.start)
    return f"{error.kind.name} {error.kind.code} in line {line}"
