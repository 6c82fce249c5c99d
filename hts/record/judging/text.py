"""A judgement for people: what was assumed, the faults, the table, the failures in words."""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING

from hts.checking.report.terminal import printable
from hts.job.compiler.fingerprint import grouped
from hts.record.faults.fault_kinds import BY_NAME
from hts.record.judging.judgement import Judgement
from hts.record.judging.verdict import MET, Verdict

if TYPE_CHECKING:
    from hts.record.faults import Fault

_HEADS = ("requirement", "specified", "actual", "verdict")
_WIDTHS = (30, 34, 34, 11)
_GAP = "  "
_INDENT = "  "


def write(judgement: Judgement) -> str:
    """The whole report; every line is printable."""
    record, plan = judgement.record, judgement.plan
    named = plan.job.document
    lines = [
        f"{named.title}: {plan.address}",
        f"specification {named.number} revision {named.revision}, fingerprint {named.fingerprint}",
        f"record {', '.join(one.name for one in record.files)}, fingerprint "
        f"{grouped(record.digest)}",
        f"{record.clock(0.0)} to {record.clock(record.end)}",
    ]
    if record.simulated:
        lines.append("SIMULATED: this is not the record of a real run")
    lines += _listed("assumed", [*record.assumed, *judgement.assumed])
    lines += _listed("faults found", [_fault(judgement, fault) for fault in judgement.faults])
    lines += ["", *_table([one for one in judgement.verdicts if not one.elsewhere])]
    for verdict in judgement.verdicts:
        sentences = [failure.sentence for failure in verdict.failures]
        lines += _listed(f"{verdict.requirement}: {_outcome(verdict)}", sentences)
    lines += _listed(
        "worked out", [f"{figure.name}: {figure.sentence}" for figure in judgement.noted]
    )
    others = [one for one in judgement.verdicts if one.elsewhere]
    lines += _listed(
        "to be shown by other documents", [f"{one.requirement}: {one.specified}" for one in others]
    )
    lines += ["", _summary(judgement)]
    return "\n".join(printable(line.rstrip()) for line in lines) + "\n"


def _summary(judgement: Judgement) -> str:
    counted = [_outcome(verdict) for verdict in judgement.verdicts if not verdict.elsewhere]
    counts = ", ".join(f"{counted.count(word)} {word}" for word in dict.fromkeys(counted))
    return f"{judgement.overall}: {counts}"


def _outcome(verdict: Verdict) -> str:
    """`met`; with a guard band that decides otherwise `met, conditional with guard band`."""
    if verdict.guarded is None or verdict.guarded == verdict.verdict:
        return verdict.verdict
    return f"{verdict.verdict}, {verdict.guarded} with guard band"


def _fault(judgement: Judgement, fault: Fault) -> str:
    clock, kind = judgement.record.clock, BY_NAME[fault.kind]
    return (
        f"{fault.whose}: {kind.title} from {clock(fault.start)} to {clock(fault.end)}, "
        f"{fault.evidence}; {fault.confidence} confidence; {fault.treatment}\n"
        f"to do: {kind.remedy}"
    )


def _listed(head: str, items: list[str]) -> list[str]:
    """A heading and its items, their lines wrapped; nothing where there are none."""
    if not items:
        return []
    width = sum(_WIDTHS) + len(_GAP) * (len(_WIDTHS) - 1) - len(_INDENT)
    lines = ["", f"{head}"]
    for item in items:
        first, *rest = [one for line in item.split("\n") for one in wrap(line, width - 2) or [""]]
        lines += [f"{_INDENT}- {first}", *(f"{_INDENT}  {more}" for more in rest)]
    return lines


def _table(verdicts: list[Verdict]) -> list[str]:
    lines = [*_row(_HEADS, ""), _GAP.join("-" * width for width in _WIDTHS)]
    for verdict in verdicts:
        mark = "" if (verdict.guarded or verdict.verdict) == MET else "<"
        lines += _row(
            (verdict.requirement, verdict.specified, verdict.actual, _outcome(verdict)), mark
        )
    return lines


def _row(cells: tuple[str, ...], mark: str) -> list[str]:
    """A row of wrapped cells; `mark` leads the eye to what is not met."""
    columns = [wrap(cell, width) or [""] for cell, width in zip(cells, _WIDTHS, strict=True)]
    height = max(map(len, columns))
    lines = [
        _GAP.join(
            (column[at] if at < len(column) else "").ljust(width)
            for column, width in zip(columns, _WIDTHS, strict=True)
        )
        for at in range(height)
    ]
    return [f"{lines[0]} {mark}", *lines[1:]]
