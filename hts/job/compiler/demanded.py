"""What the procedures demand of the entries of a job, in words: what, and where it is met."""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import NamedTuple

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.govern.demanded import Outcome, of_joint
from hts.checking.rules.helpers.waived import of_job
from hts.language.vocabulary.demand_lines import Requires

#: As many places as help to find it; more are counted.
_PLACES = 3


class ProcedureDemand(NamedTuple):
    """A line of a procedure put to a joint, or to the whole job (``joint`` is "").

    ``line`` is the line of the procedure, ``what`` is its demand with its condition, ``verdict``
    is met, not met, undecided or checked (by what is predicted), and ``where`` tells the lines of
    the job that meet it, or why it is not met.
    """

    procedure: str
    line: str
    what: str
    note: str
    joint: str
    address: str
    verdict: str
    where: str


def procedure_demands(case: Case) -> tuple[ProcedureDemand, ...]:
    """Every demand on entries that is for a joint of the job, those on the document first."""
    return tuple(_all(case))


def _all(case: Case) -> Iterator[ProcedureDemand]:
    home = case.spec.source.name
    for outcome in of_job(case):
        yield _made(outcome, home)
    for joint in case.joints():
        for outcome in of_joint(case, joint):
            yield _made(outcome, home)


def _made(outcome: Outcome, home: str) -> ProcedureDemand:
    when = f" when {outcome.line.when.text}" if outcome.line.when is not None else ""
    if isinstance(outcome.line, Requires) and outcome.line.otherwise is not None:
        when = f", else {outcome.line.otherwise.text}{when}"
    at = outcome.line.place()
    if outcome.verdict != "met":
        where = outcome.why
    elif outcome.verb == "forbids":
        where = "not in the job"
    else:
        where = "; ".join(dict.fromkeys(_line(span, home) for span in outcome.where[:_PLACES]))
        more = len(outcome.where) - _PLACES
        where += f" and {more} more" if more > 0 else ""
    joint = outcome.joint.name if outcome.joint is not None else ""
    return ProcedureDemand(
        outcome.authority.name,
        f"line {at.source.position(at.start)[0]}",
        f"{outcome.said}{when}",
        outcome.line.note or "",
        joint,
        outcome.address,
        outcome.verdict,
        where,
    )


def _words(span: Span) -> str:
    """The line a place stands in, without its blanks and the bracket of a block."""
    text = span.source.text
    begins = text.rfind("\n", 0, span.start) + 1
    ends = text.find("\n", span.start)
    return " ".join(text[begins : ends if ends >= 0 else len(text)].split()).removesuffix(" {")


def _line(span: Span, home: str) -> str:
    """`line 47: insulation "blanket" thickness 50 mm layers 2`, with the file where another,
    named without its folder, so that papers do not depend on where it lies."""
    source, words = span.source, _words(span)
    file = "" if source.name == home else f"{os.path.basename(source.name)} "
    return f"{file}line {source.position(span.start)[0]}: {words}"
