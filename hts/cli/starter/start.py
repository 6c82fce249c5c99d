"""Makes the text of a first specification, and answers for it."""

from __future__ import annotations

import os

from hts.base.findings import Finding, Report
from hts.base.text import Source
from hts.checking.checker.run import check_case
from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.cli.starter.choices import AXES, BOOKS, FAMILIES, KINDS, METHODS, UNITS, Choices
from hts.cli.starter.text import Widths, written
from hts.language.layout import settled
from hts.language.model import Loader, Spec
from hts.language.vocabulary.suggest import nearest
from hts.science.tables.pipe import UnknownSchedule, UnknownSize, pipe

NAME = "new.hts"


class CannotStart(Exception):
    """No specification can be made from the answers; the message says why, and what can be."""

    def __init__(self, message: str, findings: list[Finding] | None = None) -> None:
        super().__init__(message)
        self.findings = findings or []


def started(choices: Choices) -> str:
    """The text for some answers, in the canonical layout, without a finding. Raises CannotStart."""
    for name, answer, offered in (
        ("material", choices.material, FAMILIES),
        ("method", choices.method, METHODS),
        ("book", choices.book, BOOKS),
        ("axis", choices.axis, AXES),
        ("units", choices.units, UNITS),
        ("kind of weld", choices.kind, KINDS),
    ):
        if answer not in offered:
            guess = nearest(answer, list(offered))
            hint = f"did you mean {guess}?" if guess else f"there are {', '.join(offered)}"
            raise CannotStart(f"there is no {name} {answer!r}; {hint}")
    try:
        size = pipe(choices.nps, choices.schedule)
        run = pipe(choices.run, choices.run_schedule) if choices.kind == "branch" else None
    except (UnknownSize, UnknownSchedule) as error:
        raise CannotStart(str(error)) from None
    if not choices.joints:
        raise CannotStart("the weld has no name")
    if not choices.title:
        choices = choices._replace(title=f"Tern Island (invented): {KINDS[choices.kind]}")
    draft = _case(written(choices, size, run), choices)
    text = written(choices, size, run, _widths(draft))
    report = Report()
    laid_out = settled(Source(text, NAME), report)
    findings = report.findings or check_case(_case(laid_out or text, choices))
    if findings or laid_out is None:
        raise CannotStart("these answers do not go together", findings)
    return laid_out


def _case(text: str, choices: Choices) -> Case:
    return Case(Spec(Source(text, NAME), Loader(os.getcwd())), choices.day)


def _widths(draft: Case) -> Widths:
    """What the rules ask of the joint of a draft. Raises CannotStart."""
    findings = [f for f in draft.spec.findings if f.severity == "error"]
    joint = next(draft.joints(), None) if not findings else None
    if joint is None:
        raise CannotStart("these answers cannot be written as a specification", findings)
    limits = draft.limits(joint)
    zones, soak, heated = limits.zone_count(), limits.band("soak band"), limits.band("heated band")
    if zones is None or soak is None or heated is None:
        raise CannotStart("no rule gives the bands of this joint")
    near = total_width(joint.preheat.width, None) if joint.preheat is not None else None
    cap = joint.entry.cap_width
    if near is not None and cap is not None and near + cap > heated:
        return Widths(zones, soak, near + cap, stated=True)
    return Widths(zones, soak, heated)
