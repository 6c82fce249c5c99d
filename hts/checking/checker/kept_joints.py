"""Outcomes kept joint by joint: of a weld list one row of which was changed, that joint alone is
judged again.

What comes of a joint made from a row hangs on the row, on every text but the tables, on what of
these texts could be read, and on the day where a rule asked for it. All of that is in its key, so
that a changed typical, procedure, book or setting leaves nothing of the old outcome. The program,
its rules and the settings are the key of what is kept as a whole. Rules about the specification are
put to it every time, and so are all rules to a joint whose outcome may hang on other joints. A rule
about the specification that looks at joint after joint passes over those at which it found nothing
(`Case.nothing_at`): that, too, is kept with the joint.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from hts.base.findings import Finding, Kind, Report
from hts.base.text import Source, Span
from hts.checking.checker.all_kinds import all_kinds
from hts.checking.checker.program import digest_of
from hts.checking.checker.results import JointOutcomes
from hts.checking.checker.stored import Foreign, from_data, past, to_data
from hts.checking.govern.case import Case
from hts.language.model.joint import Joint
from hts.language.rows.row_source import RowSource
from hts.language.rows.table_source import TableSource
from hts.language.vocabulary.declare import Entry


class KeptJoints:
    """The joints of one case: what is known of them, and in `now` what comes of them this time.

    A label of a kept finding is a text of the specification by its number, or a cell of the row by
    its column.
    """

    def __init__(self, case: Case, known: JointOutcomes) -> None:
        self.now: JointOutcomes = {}
        self._case = case
        self._known = known
        self._sources = case.spec.sources
        self._ground = _ground(case) if any(j.row for j in case.spec.joints.values()) else None
        self._kinds: dict[str, Kind] | None = None
        self._keys = {name: self._key_of(joint) for name, joint in case.spec.joints.items()}
        for name, key in self._keys.items():
            for code in known[key][3] if key in known else ():
                case.nothing_at(code).add(name)

    def judge(self, joint: Joint, put: Callable[[], None]) -> None:
        """Brings the findings about a joint into the report: those kept where what they hang on is
        as it was, else what the rules say that ``put`` puts to it."""
        key = self._keys[joint.name]
        if key is None:
            put()
        elif not self._told(joint, key):
            self._put(joint, key, put)

    def _put(self, joint: Joint, key: str, put: Callable[[], None]) -> None:
        """Has the rules put to a joint with a report and days of its own, and keeps both."""
        case = self._case
        report, days = case.report, case.days
        own = Report()
        case.report, case.days = own, set()
        try:
            put()
            self._keep(joint, key, own.findings, case.days)
        finally:
            days.update(case.days)
            case.report, case.days = report, days
        for finding in own.findings:
            case.add(finding)

    def _told(self, joint: Joint, key: str) -> bool:
        """Whether the outcome of a joint was known; its findings are then in the report."""
        outcome = self._known.get(key)
        if outcome is None:
            return False
        days, over, findings, _ = outcome
        if over != past(days, self._case.today):
            return False
        for data in findings:
            self._case.add(from_data(data, lambda at: self._span(joint, at), self._kind))
        self._case.days.update(days)
        self.now[key] = outcome
        return True

    def _keep(self, joint: Joint, key: str, findings: list[Finding], days: set[str]) -> None:
        """Keeps what came of a joint; not where it points at what is not its own."""
        if any(self._case.has_foreseen(treatment) for treatment in self._case.treatments(joint)):
            return
        kinds: dict[str, Any] = {}
        try:
            told = [to_data(f, lambda span: self._place(joint, span), kinds) for f in findings]
        except Foreign:
            return
        ordered = sorted(days)
        nothing = [code for code, names in self._case.nothing.items() if joint.name in names]
        self.now[key] = [ordered, past(ordered, self._case.today), told, nothing]

    def _key_of(self, joint: Joint) -> str | None:
        """All that the outcome of a joint hangs on, None where it may hang on other joints."""
        row = joint.row
        if row is None or self._ground is None or not isinstance(row.source, RowSource):
            return None
        treatments = (*joint.bakes, *joint.cycles)
        if any(each.cycle is not None and each.cycle.together for each in treatments):
            return None
        entries: list[Entry | None] = [joint.preheat, *(each.entry for each in treatments)]
        entries += [*joint.before, *joint.during, *joint.after]
        stands = [e and (e.source.name, e.start, e.sound) for e in entries]
        said = (joint.name, joint.sound, row.source.text, row.source.said, stands)
        return digest_of(f"{self._ground} {said!r}".encode("utf-8", "surrogatepass"))

    def _kind(self, code: str) -> Kind:
        if self._kinds is None:
            self._kinds = {kind.code: kind for kind in all_kinds()}
        return self._kinds[code]

    def _place(self, joint: Joint, span: Span) -> list[int]:
        """Raises Foreign."""
        for number, source in enumerate(self._sources):
            if source is span.source:
                return [number, span.start, span.end]
        row = _row(joint)
        if isinstance(span.source, TableSource) and span.source is row.key.source:
            column = span.source.column_at(span.start)
            if span.source.cell(row.number, column) == span:
                return [column]
        raise Foreign(span.source.name)

    def _span(self, joint: Joint, at: list[int]) -> Span:
        if len(at) == 1:
            row = _row(joint)
            assert isinstance(row.key.source, TableSource)
            return row.key.source.cell(row.number, at[0])
        number, start, end = at
        return self._sources[number].span(start, end)


def _ground(case: Case) -> str | None:
    """What all joints of a specification hang on, None where some are like the joint of a row.

    That is every text but the tables of weld lists, of these the heads, and which entries could be
    read: a name that no row has any more makes an entry that uses it unsound.
    """
    spec = case.spec
    files = [spec.file, *(library.file for library in spec.libraries)]
    listed = {name for name, joint in spec.joints.items() if joint.row is not None}
    every = [entry for file in files for entry in file.joints]
    every += [entry for each in spec.weld_lists for entry in each.joints]
    if any(entry.like is not None and entry.like.name in listed for entry in every):
        return None
    told = [f"{spec.defaults!r} {case.predicts}"]
    told += [_text(source) for source in spec.sources]
    for table in spec.tables:
        heads = table.heads if isinstance(table, TableSource) else ()
        told.append(repr((table.name, heads)))
    told += ["".join("+" if sound else "-" for sound in _sound(file)) for file in files]
    return digest_of("\0".join(told).encode("utf-8", "surrogatepass"))


def _text(source: Source) -> str:
    return f"{source.name}\0{source.path}\0{source.text}"


def _sound(entry: Entry) -> Iterator[bool]:
    """Whether each entry that is written in a file could be read, in their order."""
    yield entry.sound
    for name in type(entry).fields:
        value = getattr(entry, name)
        for inner in value if isinstance(value, list | tuple) else (value,):
            if isinstance(inner, Entry) and not isinstance(inner.source, RowSource):
                yield from _sound(inner)


def _row(joint: Joint) -> RowSource:
    assert joint.row is not None and isinstance(joint.row.source, RowSource)
    return joint.row.source
