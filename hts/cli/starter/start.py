"""Makes the text of a first specification, and answers for it."""

from __future__ import annotations

import os
from collections.abc import Iterator

from hts.base.findings import Finding, Report
from hts.base.quantities import Quantity
from hts.base.text import Source
from hts.checking.checker.run import check_case
from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.checking.rules.helpers.heavy import heavy_beside_thin
from hts.cli.starter.choices import AXES, BOOKS, FAMILIES, KINDS, METHODS, UNITS, Choices
from hts.cli.starter.text import Widths, written
from hts.cli.starter.treatment import USUALLY
from hts.language.layout import settled
from hts.language.model import Loader, Spec
from hts.language.model.joint import Joint
from hts.language.vocabulary.cycle import Bake
from hts.language.vocabulary.suggest import nearest
from hts.science.tables.pipe import UnknownSchedule, UnknownSize, pipe

NAME = "new.hts"
#: A bake is not proposed longer than so many hours, nor heated more slowly than by this factor.
_LONGEST, _SLOWEST = 96, 8


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
    widths = _widths(draft, _drafted(draft, choices))
    soaked = USUALLY
    while True:
        text, findings = _judged(written(choices, size, run, widths, soaked), choices)
        told = {finding.kind.name for finding in findings}
        if "bake-leaves-hydrogen" in told and soaked.hours < _LONGEST:
            soaked = soaked.longer()
        elif "inside-arrives-late" in told and soaked.slower < _SLOWEST:
            soaked = soaked.more_slowly()
        elif findings:
            raise CannotStart("these answers do not go together", findings)
        else:
            return text


def _judged(text: str, choices: Choices) -> tuple[str, list[Finding]]:
    """A text in the canonical layout, and what is found in it."""
    report = Report()
    laid_out = settled(Source(text, NAME), report) or text
    return laid_out, report.findings or check_case(_case(laid_out, choices))


def _stands(choices: Choices, joint: Joint) -> None:
    """Raises CannotStart where a branch is larger than what it is to stand on."""
    option = {"branch": "--run", "nozzle": "--shell"}.get(choices.kind)
    large = {
        side.name: side.outside_diameter.value
        for side in joint.sides
        if side.outside_diameter is not None and isinstance(side.outside_diameter.value, Quantity)
    }
    run, branch = large.get("run"), large.get("branch")
    if option and run is not None and branch is not None and branch > run:
        raise CannotStart(
            f"a branch of {branch.both()} does not stand on a run of {run.both()}; "
            f"name a larger one with {option}"
        )


def _case(text: str, choices: Choices) -> Case:
    return Case(Spec(Source(text, NAME), Loader(os.getcwd())), choices.day)


def _drafted(draft: Case, choices: Choices) -> Joint:
    """The joint of a draft. Raises CannotStart."""
    findings = [f for f in draft.spec.findings if f.severity == "error"]
    joint = next(draft.joints(), None) if not findings else None
    if joint is None:
        raise CannotStart("these answers cannot be written as a specification", findings)
    _stands(choices, joint)
    return joint


def _widths(draft: Case, joint: Joint) -> Widths:
    """What the rules ask of the joint of a draft. Raises CannotStart."""
    limits = draft.limits(joint)
    zones, soak, heated = limits.zone_count(), limits.band("soak band"), limits.band("heated band")
    if zones is None or soak is None or heated is None:
        raise CannotStart("no rule gives the bands of this joint")
    beside = heavy_beside_thin(draft, joint)
    asked = Widths(zones, soak, heated, heavy=beside.side if beside is not None else "")
    widest = max(_warmed(joint), default=None)
    if widest is not None and widest > heated:
        return asked._replace(heated=widest, stated=True)
    return asked


def _warmed(joint: Joint) -> Iterator[Quantity]:
    """Total widths that are preheated and baked."""
    near = total_width(joint.preheat.width, None) if joint.preheat is not None else None
    if near is not None and joint.entry.cap_width is not None:
        yield near + joint.entry.cap_width
    for bake in joint.bakes:
        width = total_width(bake.entry.width, None) if isinstance(bake.entry, Bake) else None
        if width is not None:
            yield width
