"""A document is prepared, checked and approved by different roles, in that order."""

from __future__ import annotations

from datetime import date, timedelta

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.vocabulary.job import Signature, Signed

_PREPARED = '    prepared   "Heat-treatment engineer"\n'
_CHECKED = '    checked    "Welding engineer"\n'
_APPROVED = '    approved   "Owner\'s engineer"\n'


def _on(line: str, day: str) -> tuple[str, str]:
    return (line, line.replace("\n", f" on {day}\n"))


RULE = Rule(
    "D110",
    "signed-out-of-order",
    "warning",
    summary="A signature older than the revision or than the one it follows, or one role that signs "
    "twice.",
    why="An approval before the check approves something else; a role that checks its own work does "
    "not find its own mistakes.",
    fix="Correct the days and the roles.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_CHECKED, _CHECKED.replace("Welding", "Heat-treatment")),), at="Heat-treatment"),),
    edges=(
        Edge(
            (_on(_PREPARED, "{}"),),
            keeps="2026-10-02",
            breaks="2026-10-01",
            says="on 2026-10-01, before 2026-10-02",
        ),
        Edge(
            (_on(_CHECKED, "2026-10-08"), _on(_APPROVED, "{}")),
            keeps="2026-10-08",
            breaks="2026-10-07",
            says="on 2026-10-07, before 2026-10-08",
        ),
        Edge(
            (_on(_APPROVED, "{}"),),
            keeps="2027-04-03",
            breaks="2027-04-04",
            says="on 2027-04-04 … of 2026-10-02",
        ),
    ),
    good=(
        Good(
            (
                _on(_PREPARED, "2026-10-02"),
                _on(_CHECKED, "2026-10-02"),
                _on(_APPROVED, "2026-10-05"),
            )
        ),
    ),
    agrees=(
        Agreement("job.signed.prepared.on", "job.revision.on", "not before the revision"),
        Agreement("job.signed.checked.on", "job.signed.prepared.on", "not before it"),
        Agreement("job.signed.approved.on", "job.signed.checked.on", "not before it"),
        Agreement("job.signed.checked.role", "job.signed.prepared.role", "another role"),
        Agreement("job.signed.approved.role", "job.signed.checked.role", "another role"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    if job is None or job.signed is None or not job.sound:
        return
    stages = _stages(job.signed)
    address = f"{job.name}/signed"
    latest = job.revision.on
    last = job.revision.place("on")
    for stage in stages:
        days = [(one.on, one) for one in stage if one.on is not None]
        for day, one in days:
            if latest is not None and day < latest:
                case.add(
                    RULE.found(
                        f"{one.role} signs on {day}, before {latest}",
                        one.place("on"),
                        address=address,
                        others=[Label(last, "comes first")],
                        basis=RULE.basis,
                    )
                )
            elif job.revision.on is not None and day > _half_a_year_after(job.revision.on):
                case.add(
                    RULE.found(
                        f"{one.role} signs on {day}, more than half a year after the revision of "
                        f"{job.revision.on}",
                        one.place("on"),
                        address=address,
                        others=[Label(job.revision.place("on"), "the revision")],
                        basis=RULE.basis,
                    )
                )
        if days:
            newest, one = max(days, key=lambda found: found[0])
            if latest is None or newest > latest:
                latest, last = newest, one.place("on")
    _twice(case, [one for stage in stages for one in stage], address)


def _half_a_year_after(day: str) -> str:
    return (date.fromisoformat(day) + timedelta(days=183)).isoformat()


def _stages(signed: Signed) -> list[list[Signature]]:
    prepared: list[Signature] = [signed.prepared] if signed.prepared is not None else []
    middle: list[Signature] = [*signed.reviewed, *signed.endorsed]
    return [prepared, list(signed.checked), middle, list(signed.approved)]


def _twice(case: Case, signatures: list[Signature], address: str) -> None:
    first: dict[str, Signature] = {}
    for one in signatures:
        other = first.setdefault(one.role, one)
        # That whoever wrote it approves it is told by missing-approval.
        if other is one or (other.words, one.words) == (("prepared",), ("approved",)):
            continue
        case.add(
            RULE.found(
                f"{one.role} signs as {' '.join(other.words)} and as {' '.join(one.words)}",
                one.place("role"),
                address=address,
                others=[Label(other.place("role"), "and here")],
                basis=RULE.basis,
            )
        )
