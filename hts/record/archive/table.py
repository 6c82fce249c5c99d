"""The table of an archive, line by line as it is made."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterable, Iterator

from hts.base.text.json_text import json_text
from hts.checking.report.terminal import printable
from hts.job.outputs.text import csv_text
from hts.record.archive.line import HEADS, NOT_JUDGED, ArchiveLine

FORMS = ("text", "csv", "json")
_WIDTHS = (12, 8, 8, 16, 36, 19, 15, 10)


def table(lines: Iterable[ArchiveLine], form: str) -> Iterator[str]:
    """The text of the table in pieces; json is one object on a line of its own."""
    if form == "csv":
        yield _csv(HEADS)
        yield from map(_csv, lines)
    elif form == "json":
        for line in lines:
            yield json_text(line._asdict(), indent=None)
    else:
        yield _text(HEADS)
        verdicts: Counter[str] = Counter()
        whys: Counter[str] = Counter()
        for line in lines:
            verdicts[line.verdict] += 1
            whys.update([line.why] if line.why else [])
            yield _text(line)
        yield _totals(verdicts, whys)


def _totals(verdicts: Counter[str], whys: Counter[str]) -> str:
    """`5 lines: 3 met, 1 no record, 1 could not judge`, the commonest first, and below it why not:
    `could not judge: 1 unnamed`."""
    count = verdicts.total()
    told = f"\n{count} line{'' if count == 1 else 's'}: {_counted(verdicts)}\n"
    return told + (f"{NOT_JUDGED}: {_counted(whys)}\n" if whys else "")


def _counted(of: Counter[str]) -> str:
    return ", ".join(f"{count} {what}" for what, count in of.most_common())


def _csv(line: ArchiveLine) -> str:
    text = io.StringIO()
    csv.writer(text).writerow([csv_text(cell) for cell in line])
    return text.getvalue()


def _text(line: ArchiveLine) -> str:
    """The columns that tell a record apart, and below them what is wrong with it."""
    first = line[: len(_WIDTHS)]
    row = "  ".join(
        f"{printable(cell):{width}}" for cell, width in zip(first, _WIDTHS, strict=True)
    )
    found = row.rstrip() + "\n"
    if line is HEADS:
        return found
    for head, content in (("not met", line.failed), ("not shown", line.open), ("note", line.note)):
        if content:
            found += f"    {head}: {printable(content)}\n"
    return found
