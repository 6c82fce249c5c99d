"""What procedures ask for of a joint, for rules of practice that stand back where an owner asks."""

from __future__ import annotations

from collections.abc import Callable

from hts.checking.govern import Authority, JointLimits
from hts.checking.govern.applying import applies, known
from hts.checking.govern.case import Case
from hts.checking.govern.demanded import of_joint
from hts.checking.govern.putting import holding
from hts.language.model.joint import Joint
from hts.language.vocabulary.demand_lines import Requires
from hts.language.vocabulary.demanded import Demanded, Every
from hts.language.vocabulary.thermocouples import Thermocouple


def asked(
    case: Case, limits: JointLimits, is_meant: Callable[[Demanded], bool]
) -> list[tuple[Authority, Requires]]:
    """The lines that require what is meant of a joint, each with its source.

    A line whose condition hangs on an unknown fact is none of them: it is told as undecided.
    """
    found = []
    for authority in case.authorities:
        procedure = authority.procedure
        lines = procedure.requires if procedure is not None else ()
        meant = [line for line in lines if line.what is not None and is_meant(line.what)]
        if meant and procedure is not None and applies(procedure, limits):
            sides = list(known(limits).values())
            found += [(authority, line) for line in meant if line.sound and holding(line, sides)[0]]
    return found


def unmet(case: Case, joint: Joint, is_meant: Callable[[Demanded], bool]) -> bool:
    """Whether a line that requires what is meant of a joint is not met, which is told as that."""
    return any(
        outcome.verdict == "not met" and outcome.verb == "requires" and is_meant(outcome.what)
        for outcome in of_joint(case, joint)
    )


def predictions(case: Case, joint: Joint, limits: JointLimits) -> list[tuple[Authority, Requires]]:
    """The lines that require an outcome to be predicted, but for those of which the job has what
    will do in its place."""
    found = asked(case, limits, lambda demanded: demanded.outcome)
    if not any(line.otherwise is not None for _, line in found):
        return found
    met = {id(outcome.line) for outcome in of_joint(case, joint) if outcome.verdict == "met"}
    return [each for each in found if id(each[1]) not in met]


def monitors(demanded: Demanded, place: str) -> bool:
    """Whether a demand is for a thermocouple that monitors a place."""
    return demanded.targets[0].entry is Thermocouple and any(
        test.field.name == "monitors" and place in test.among for test in demanded.tests
    )


def spares(demanded: Demanded, duty: str) -> bool:
    """Whether a demand is for a spare of each thermocouple of a duty."""
    return any(
        isinstance(each, Every) and each.says in ("", duty)
        for test in demanded.tests
        if test.field.name == "spare_for"
        for each in test.among
    )


def open_point_on(case: Case, *words: str) -> bool:
    """Whether something is on the hold list: the document is not for construction before."""
    job = case.spec.file.job
    points = job.open_points if job is not None else []
    return any(
        point.closed is None and any(word in point.text.lower() for word in words)
        for point in points
    )
