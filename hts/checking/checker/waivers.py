"""Waivers: what the text sets aside, and what is wrong with a waiver itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from hts.base.findings import ERROR, Finding, Kind, Label
from hts.checking.checker.packs import kinds
from hts.checking.checker.waiver_kinds import (
    EXPIRED,
    FORBIDS_NOTHING,
    NOT_WAIVABLE,
    UNKNOWN_RULE,
    UNUSED,
)
from hts.checking.govern.case import Case
from hts.language.vocabulary.demand_lines import DemandLine, Forbids
from hts.language.vocabulary.job import Waive


def apply_waivers(
    case: Case, findings: Iterable[Finding], packs: tuple[str, ...] = ()
) -> list[Finding]:
    """The findings no waiver covers, and those about the waivers.

    The covered ones go into ``case.waived``. ``packs`` are the rule packs in force.
    """
    open_findings = list(findings)
    for waiver in case.spec.waivers:
        if not waiver.sound or waiver.rule is None or waiver.on is None:
            continue
        open_findings = _apply(case, waiver, open_findings, packs)
    return [*open_findings, *_forbidden_in_vain(case, packs)]


def _forbidden_in_vain(case: Case, packs: tuple[str, ...]) -> Iterator[Finding]:
    """Lines of the procedures of this file on waivers of a rule there is not."""
    for procedure in case.spec.file.procedures:
        lines: list[DemandLine | Forbids] = [*procedure.requires, *procedure.prefers]
        for line in (*lines, *procedure.forbids):
            what = line.what
            if what is None or what.targets[0].root is not Waive:
                continue
            for test in what.tests:
                for rule in map(str, test.among if test.field.name == "rule" else ()):
                    help = _unknown(rule, packs)
                    if help is not None:
                        yield Finding(
                            FORBIDS_NOTHING,
                            f"there is no rule {rule!r}, so that nothing is forbidden",
                            Label(line.place("what")),
                            address=procedure.name,
                            help=help or FORBIDS_NOTHING.fix,
                        )


def _apply(
    case: Case, waiver: Waive, findings: list[Finding], packs: tuple[str, ...]
) -> list[Finding]:
    covered = [f for f in findings if _covers(waiver, f)]
    if not covered:
        if (help := _unknown(waiver.rule, packs)) is not None:
            return [*findings, _about(UNKNOWN_RULE, waiver, "rule", help)]
        return [*findings, _unused(waiver, findings)]
    if case.run_out(waiver.until):
        return [*findings, _about(EXPIRED, waiver, "until", "")]
    if any(finding.kind.floor == ERROR for finding in covered):
        return [*findings, _about(NOT_WAIVABLE, waiver, "rule", "")]
    why = f"{waiver.reason}, {waiver.by}" + (f", until {waiver.until}" if waiver.until else "")
    case.waived += [(finding, why) for finding in covered]
    return [finding for finding in findings if finding not in covered]


def _covers(waiver: Waive, finding: Finding) -> bool:
    kind = finding.kind
    return waiver.rule in (kind.name, kind.code) and covers(waiver.on or "", finding.address)


def covers(written: str, address: str) -> bool:
    """Whether ``W12.T5`` or ``W12/thermocouples/T5`` means the address.

    The parts must come in this order, the first and the last being the address's own; what lies
    between may be left out.
    """
    if written == address:
        return True
    parts = address.split("/")
    for separator in ("/", "."):
        wanted = written.split(separator)
        if len(wanted) > 1 and wanted[0] == parts[0] and wanted[-1] == parts[-1]:
            rest = iter(parts)
            if all(part in rest for part in wanted):
                return True
    return False


def _unused(waiver: Waive, findings: list[Finding]) -> Finding:
    """A waiver that covers nothing, with the address to write where the rule is told elsewhere."""
    broken = [
        f.address for f in findings if waiver.rule in (f.kind.name, f.kind.code) and f.address
    ]
    parts = (waiver.on or "").replace(".", "/").split("/")
    near = [each for each in broken if each.split("/")[0] == parts[0]]
    addresses = list(dict.fromkeys(near))
    if not addresses:
        return _about(UNUSED, waiver, "rule", "")
    more = f", and {len(addresses) - 1} more" if len(addresses) > 1 else ""
    return Finding(
        UNUSED,
        f"{waiver.rule} is told at {addresses[0]}{more}, not at {waiver.on}",
        Label(waiver.place("on")),
        address=waiver.address,
        help=f"write `on {addresses[0]}`, or remove the waiver",
    )


def _unknown(rule: str, packs: tuple[str, ...]) -> str | None:
    """What helps where there is no such rule, None where there is."""
    from hts.checking.rules.former import meant

    there = kinds(packs)
    if any(rule in (kind.name, kind.code) for kind in there):
        return None
    return meant(rule, [kind.name for kind in there])


def _about(kind: Kind, waiver: Waive, field: str, help: str) -> Finding:
    messages = {
        UNKNOWN_RULE: f"there is no rule {waiver.rule!r}",
        UNUSED: f"nothing at {waiver.on} breaks {waiver.rule}",
        EXPIRED: f"this waiver ended on {waiver.until}",
        NOT_WAIVABLE: f"{waiver.rule} may not be waived",
    }
    return Finding(
        kind,
        messages[kind],
        Label(waiver.place(field)),
        address=waiver.address,
        help=help or kind.fix,
    )
