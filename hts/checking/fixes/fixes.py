"""Which fixes a finding has.

Facts of the site, decisions and signatures are never among them: only a person who looked can write
those. What a fix changes is proved where it is applied (hts.editor.proof); here only what would be
read wrongly again is left out.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator

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


#: Letters read again in all to try the fixes of one text, each try being the whole text. A text of
#: some pages with dozens of findings stays below; past it no fix is offered until some are mended.
MOST_READ = 500_000


def fixes_for(finding: Finding, kind: FixKind | None = None) -> tuple[Fix, ...]:
    """The fixes of a finding, each a different one; none where only a person can mend it. With
    `kind`, those of that kind alone."""
    return _found(finding, kind, {})


def fixes_of(findings: Iterable[Finding]) -> list[tuple[Fix, ...]]:
    """The fixes of each finding of a report: of a text damaged all over, those of the first."""
    left: dict[str, int] = {}
    return [_found(finding, None, left) for finding in findings]


def _found(finding: Finding, kind: FixKind | None, left: dict[str, int]) -> tuple[Fix, ...]:
    """`left`: by name of the text, the letters that may still be read to try its fixes."""
    source = finding.source
    found: dict[str, Fix] = {}
    for fix in _proposed(finding):
        if fix.title in found or (kind is not None and fix.kind != kind):
            continue
        room = left.get(source.name, MOST_READ)
        if room <= 0:
            break
        left[source.name] = room - len(source.text)
        if _reads(finding, fix):
            found[fix.title] = fix
    return tuple(found.values())


def _proposed(finding: Finding) -> Iterator[Fix]:
    """What may be written, whether it would be read or not."""
    if finding.source.name.lower().endswith(TABLE_ENDINGS):
        # The table of a weld list is kept in a spreadsheet, which would write over it.
        return
    makers = (*_MAKERS.get(finding.kind.name, ()), *_BY_HELP)
    if finding.kind.name == "unused-waiver":
        makers = (_without_waiver,)
    for maker in makers:
        yield from maker(finding)


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
