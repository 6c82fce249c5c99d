"""What a notebook shows of findings, jobs, comparisons and judged records, and their tables.

Every text of a specification or a record is escaped: none of it is ever markup.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from html import escape
from typing import TYPE_CHECKING, Any

from hts.base.findings import Finding

if TYPE_CHECKING:
    from hts.job.comparison.compare import Comparison
    from hts.job.compiler import Job
    from hts.record.judging import Judgement

#: A table as pandas.DataFrame and polars.DataFrame take it: a mapping for each row.
Rows = list[dict[str, Any]]


class Findings(list[Finding]):
    """The findings of a check: a list, shown as a table in a notebook."""

    @property
    def rows(self) -> Rows:
        """A row for each finding, for `polars.DataFrame(findings.rows)` or pandas."""
        return [_finding(finding) for finding in self]

    def _repr_html_(self) -> str:
        if not self:
            return "<p>no findings</p>"
        heads = ("severity", "rule", "where", "message", "what to do")
        rows = (
            (
                f.severity,
                f"{f.kind.name} ({f.kind.code})",
                _where(f),
                f.message,
                f.help or f.kind.fix,
            )
            for f in self
        )
        return table(heads, rows)


class Drawing(str):
    """An SVG, which a notebook draws."""

    def _repr_svg_(self) -> str:
        return str(self)

    def __repr__(self) -> str:
        return f"<Drawing, {len(self)} letters of SVG>"


def table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """An HTML table of plain texts."""
    head = "".join(f"<th>{escape(text)}</th>" for text in heads)
    body = "".join(
        f"<tr>{''.join(f'<td>{escape(str(cell))}</td>' for cell in row)}</tr>" for row in rows
    )
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def tables(job: Job) -> dict[str, Rows]:
    """The tables `hts compile` writes as CSV, by name: `setpoints`, `schedule`, `tags`. Every value
    is the text of its cell."""
    import csv

    from hts.job.outputs import files

    return {
        name.removesuffix(".csv"): list(csv.DictReader(data.decode("utf-8-sig").splitlines()))
        for name, data in files(job).items()
        if name.endswith(".csv")
    }


def drawings(job: Job) -> dict[str, Drawing]:
    """The drawings of a job as SVG, by name. Raises ModuleNotFoundError without `hts[paper]`."""
    from hts.paper.drawings import files
    from hts.paper.sheet.size import A4

    return {
        name.removesuffix(".svg"): Drawing(data.decode("utf-8"))
        for name, data in files(job, A4).items()
    }


def job_html(job: Job) -> str:
    """The job and its tables."""
    parts = [f"<p>{escape(repr(job).strip('<>'))}</p>"]
    for name, rows in tables(job).items():
        if rows and name in ("setpoints", "tags"):
            heads = [head for head in rows[0] if any(row[head] for row in rows)]
            parts.append(f"<h4>{escape(name)}</h4>")
            parts.append(table(heads, ([row[head] or "" for head in heads] for row in rows)))
    return "".join(parts)


def comparison_html(comparison: Comparison) -> str:
    """The changes, the worst first."""
    rows = comparison_rows(comparison)
    heads = ("verdict", "change", "address", "old", "new", "reason")
    told = table(heads, ([row[head] for head in heads] for row in rows)) if rows else ""
    return f"<p>{escape(repr(comparison).strip('<>'))}</p>{told}"


def comparison_rows(comparison: Comparison) -> Rows:
    """A row for each change, the worst first."""
    from hts.job.comparison.approvals import Judged
    from hts.job.comparison.report.told import kind, texts, told

    return [
        {
            "verdict": each.change.verdict,
            "change": kind(each.change),
            "address": each.change.address,
            "old": texts(each.change)[0],
            "new": texts(each.change)[1],
            "reason": each.change.reason,
        }
        for each in told(Judged(comparison))
    ]


def judgement_html(judgement: Judgement) -> str:
    """Every requirement with its verdict."""
    rows = judgement_rows(judgement)
    heads = ("requirement", "of", "limit", "actual", "outcome")
    return f"<p>{escape(str(judgement.overall))}</p>" + table(
        heads, ([row[head] for head in heads] for row in rows)
    )


def show(judgements: type[Judgement]) -> None:
    """Lets judged records show themselves; the type is not there without `hts[record]`."""
    judgements._repr_html_ = judgement_html  # type: ignore[attr-defined]
    judgements.__repr__ = _judgement_repr  # type: ignore[assignment,method-assign]


def _judgement_repr(judgement: Judgement) -> str:
    count = len(judgement.verdicts)
    return f"<Judgement of {judgement.plan.joint}: {judgement.overall}, {count} requirements>"


def judgement_rows(judgement: Judgement) -> Rows:
    """A row for each requirement."""
    return [dict(_verdict(verdict)) for verdict in judgement.verdicts]


def _verdict(verdict: Any) -> Mapping[str, Any]:
    return {
        "requirement": verdict.requirement,
        "of": verdict.address,
        "limit": verdict.specified,
        "actual": verdict.actual,
        "outcome": verdict.verdict,
    }


def _finding(finding: Finding) -> dict[str, Any]:
    line, column = finding.source.position(finding.at.span.start)
    return {
        "severity": finding.severity,
        "code": finding.kind.code,
        "rule": finding.kind.name,
        "address": finding.address,
        "file": finding.source.name,
        "line": line,
        "column": column,
        "message": finding.message,
        "help": finding.help or finding.kind.fix,
    }


def _where(finding: Finding) -> str:
    line, column = finding.source.position(finding.at.span.start)
    place = f"{finding.source.name}:{line}:{column}"
    return f"{finding.address} ({place})" if finding.address else place
