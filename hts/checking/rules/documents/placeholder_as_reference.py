"""What names another paper names one."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.declare import Entry

#: Words written where a number is not known yet.
_PLACEHOLDER = re.compile(
    r"open point.*|see open point.*|t\.?b\.?[acd]\.?|to be .*|to follow|later|pending|unknown|not known"
    r"|n\.?/?a\.?|none|\?+|x{2,}|\.{2,}|…|-+|_+|\*+|0+",
    re.IGNORECASE,
)
_QUALIFIED = 'qualified  "PQR-31" hold 8 h'

RULE = Rule(
    "D116",
    "placeholder-as-reference",
    "error",
    floor="error",
    summary='A placeholder such as "TBD" or "open point 3" where the number of a record, a '
    "procedure, a certificate, a heat or an instrument belongs.",
    why="It reads like a reference on every paper, the rules take it for one, and nothing stops the "
    "document from going out for construction.",
    fix="Leave the entry out and write an `open point`, which holds the document back until it is "
    "closed.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_QUALIFIED, 'qualified  "open point 3" hold 8 h'),), at="open point 3"),
        Bad((('"H4471"', '"TBD"'),), at="TBD"),
        Bad((('"40-207"', '"?"'),), at="?"),
    ),
    good=(Good((('"H4471"', '"TB-4471"'),)),),
)


@RULE.for_spec
def check(case: Case) -> None:
    for entry, field in _references(case):
        written = getattr(entry, field)
        for text in written if isinstance(written, list) else (written,):
            if isinstance(text, str) and _PLACEHOLDER.fullmatch(text.strip()):
                case.add(_finding(entry, field, text))


def _references(case: Case) -> Iterator[tuple[Entry, str]]:
    """The entries of the file that name another paper or a thing by its number."""
    file = case.spec.file
    for material in file.materials:
        yield material, "heat_numbers"
        if material.tempered is not None:
            yield material.tempered, "certificate"
    for instrument in (*file.recorders, *file.controllers):
        yield instrument, "serial"
        if instrument.calibrated is not None:
            yield instrument.calibrated, "certificate"
    for joint in file.joints:
        for record in joint.qualified:
            yield record, "record"
        for calculation in joint.calculations:
            yield calculation, "number"
        if joint.welding is not None:
            yield joint.welding, "procedure"


def _finding(entry: Entry, field: str, text: str):  # type: ignore[no-untyped-def]
    at: Span = entry.place(field)
    return RULE.found(
        f'"{text}" stands where {type(entry).fields[field].doc.lower()} belongs',
        at,
        address=entry.address,
    )
