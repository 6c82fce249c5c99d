"""The steps of a check, in order."""

from __future__ import annotations

import os
from collections.abc import Iterable
from functools import partial
from typing import TYPE_CHECKING

from hts.base.findings import Finding, Label, ordered
from hts.checking.checker.gathered import gathered
from hts.checking.checker.once import demanded_once, implausible_once
from hts.checking.checker.packs import Checks, Guarded, checks
from hts.checking.checker.results import PackError
from hts.checking.checker.setting import PLAIN, Setting, applied
from hts.checking.checker.waivers import apply_waivers
from hts.checking.govern.case import Case
from hts.checking.rules.rule import JOINT, SPEC, TREATMENT, Rule
from hts.language.model import Spec
from hts.language.model.joint import Joint
from hts.language.model.load import Library
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.job import Use
from hts.language.vocabulary.spec import File

if TYPE_CHECKING:
    from hts.checking.checker.kept_joints import KeptJoints


def check_spec(spec: Spec, today: str | None = None, setting: Setting = PLAIN) -> list[Finding]:
    """All findings about a specification, in their order, waived ones left out.

    What could not be read is not judged: a joint with an unreadable part has already been reported.
    Raises PackError where a rule pack, or one of its rules, does not work.
    """
    case = Case(spec, today)
    found = check_case(case, setting)
    if case.faults:
        raise PackError(f"{spec.source.name}: {'; '.join(case.faults)}")
    return found


def check_case(
    case: Case, setting: Setting = PLAIN, kept: KeptJoints | None = None
) -> list[Finding]:
    """All findings about a case nothing was asked of before, in their order.

    ``kept``: what is known of its joints, and to be known of them.
    A rule of a pack that fails leaves a line in `case.faults`; all others run. Raises PackError
    where a rule pack that the setting names cannot be loaded.
    """
    case.predicts, case.never_predicts = setting.predicts, setting.never_predicts
    for finding in case.spec.findings:
        case.add(finding)
    _broken_libraries(case)
    _rules(case, checks(setting.rule_packs), kept)
    told = implausible_once(case.report.findings)
    found = ordered(demanded_once(case, apply_waivers(case, told, setting.rule_packs)))
    return applied(setting, gathered(found, case.spec))


def _rules(case: Case, rules: Checks, kept: KeptJoints | None = None) -> None:
    _ = case.authorities
    job = case.spec.file.job
    if job is None or job.sound:
        for rule in rules["spec"]:
            rule.check(case)
    for joint in case.joints():
        if kept is None:
            _joint_rules(case, rules, joint)
        else:
            kept.judge(joint, partial(_joint_rules, case, rules, joint))


def _joint_rules(case: Case, rules: Checks, joint: Joint) -> None:
    for rule in rules["joint"]:
        rule.check(case, joint)
    for treatment in case.treatments(joint):
        for rule in rules["treatment"]:
            rule.check(case, treatment)


def judged_by(case: Case, rules: Iterable[Rule | Guarded]) -> None:
    """Puts these rules alone to a case."""
    subjects: Checks = {SPEC: (), JOINT: (), TREATMENT: ()}
    for rule in rules:
        subject = rule.rule.subject if isinstance(rule, Guarded) else rule.subject
        subjects[subject] += (rule,)
    _rules(case, subjects)


def _broken_libraries(case: Case) -> None:
    """A used file with errors is told once, at the `use` that brings it in."""
    file = case.spec.file
    for library in case.spec.libraries:
        errors = sum(1 for finding in library.findings if finding.severity == "error")
        if not errors or not file.uses:
            continue
        use = _brings(file, library, case.spec.libraries) or file.uses[0]
        name = library.file.source.name
        case.add(
            Finding(
                mistakes.UNUSABLE_FILE,
                f"{name} has {errors} error{'s' if errors > 1 else ''} of its own",
                Label(use.place("path")),
                help=f"run: hts check {name}",
            )
        )


def _brings(file: File, library: Library, libraries: Iterable[Library]) -> Use | None:
    """The `use` of a file that brings a library in, by way of another library where need be."""
    direct = _naming(file, library)
    if direct is not None:
        return direct
    others = [other for other in libraries if other is not library]
    return next(
        (
            use
            for other in others
            if _naming(other.file, library) is not None
            and (use := _brings(file, other, others)) is not None
        ),
        None,
    )


def _naming(file: File, library: Library) -> Use | None:
    """The `use` of a file that names a library: whole paths count, not how they end."""
    folder = os.path.dirname(file.source.path or "")
    return next(
        (
            use
            for use in file.uses
            if use.path and os.path.realpath(os.path.join(folder, use.path)) == library.path
        ),
        None,
    )
