"""Which fixes a finding has.

Facts of the site, decisions and signatures are never among them: only a person who looked can write
those. What a fix changes is proved where it is applied (hts.editor.proof); here only what would be
read wrongly again is left out.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from hts.base.findings import Finding, Fix, FixKind, Report
from hts.base.text import Source
from hts.base.text.reading import TABLE_ENDINGS
from hts.checking.fixes import layout, words
from hts.language.vocabulary.hidden import hidden_characters
from hts.language.vocabulary.reader import Reader
from hts.language.vocabulary.spec import File
from hts.syntax import parse

Maker = Callable[[Finding], Iterator[Fix]]

#: By the name of the kind of finding; what a help text proposes for any kind stands below.
_MAKERS: dict[str, tuple[Maker, ...]] = {
    "brace-on-own-line": (layout.brace_on_own_line,),
    "missing-line-break": (layout.missing_line_break,),
    "repeated-entry": (layout.said_twice,),
    "hidden-character": (layout.hidden_character,),
    "unreadable-character": (layout.hidden_character,),
    "stray-closing-brace": (layout.stray_brace,),
    "decimal-comma": (words.decimal_point,),
    "reversed-range": (words.turned_round,),
    "width-without-side": (words.width_counts,),
    "unknown-choice": (words.without_quotes,),
    "unknown-language-version": (words.language_version,),
    "unlimited-rate": (words.rate_by_rule,),
    "thickness-differs": (words.by_rule,),
}
_BY_HELP: tuple[Maker, ...] = (words.meant, words.in_place_of, words.other_form, words.bound)


def fixes_for(finding: Finding, kind: FixKind | None = None) -> tuple[Fix, ...]:
    """The fixes of a finding, each a different one; none where only a person can mend it. With
    `kind`, those of that kind alone."""
    if finding.source.name.lower().endswith(TABLE_ENDINGS):
        # The table of a weld list is kept in a spreadsheet, which would write over it.
        return ()
    makers = (*_MAKERS.get(finding.kind.name, ()), *_BY_HELP)
    if finding.kind.name == "unused-waiver":
        makers = (_without_waiver,)
    found: dict[str, Fix] = {}
    for maker in makers:
        for fix in maker(finding):
            asked = kind is None or fix.kind == kind
            if asked and fix.title not in found and _reads(finding, fix):
                found[fix.title] = fix
    return tuple(found.values())


def _reads(finding: Finding, fix: Fix) -> bool:
    """Whether the text with the fix is read with fewer findings where the finding is one of
    reading, and else with no more."""
    source = finding.source
    before = _reading(source)
    after = _reading(Source(fix.applied(source.text), source.name, source.path))
    key = (finding.kind.code, finding.message)
    if before[key]:
        return after[key] < before[key] and after.total() < before.total()
    return after.total() <= before.total()


_known: list[tuple[Source, Counter[tuple[str, str]]]] = []


def _reading(source: Source) -> Counter[tuple[str, str]]:
    """What is found while a text is read, by code and message."""
    for known, found in _known:
        if known is source:
            return found
    report = Report()
    tree = parse(source, report)
    hidden_characters(source, report)
    Reader(source, report, File).read(tree.entries)
    found = Counter((each.kind.code, each.message) for each in report.findings)
    # The text itself is asked about for each of its findings; what it becomes but once.
    _known[:] = [(source, found), *_known[:1]]
    return found


def _without_waiver(finding: Finding) -> Iterator[Fix]:
    """Takes out a waiver that waives nothing; one with a comment in it stays."""
    from hts.base.findings import OFFERED

    source = finding.source
    tree = parse(source, Report())
    at = finding.at.span.start
    for entry in tree.entries:
        if entry.start <= at < entry.end and "#" not in source.text[entry.start : entry.end]:
            edit = layout.whole_lines(source, entry.start, entry.end)
            yield Fix("remove the waiver", OFFERED, (edit,))
