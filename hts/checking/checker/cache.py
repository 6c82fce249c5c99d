"""Outcomes kept from one run to the next, so that a text nothing has changed for is not checked
again.

One sealed file for each repository root, program and configuration.
"""

from __future__ import annotations

import os
from contextlib import suppress
from typing import Any

from hts.base.findings import Kind
from hts.base.text import BYTE_ORDER_MARK, Source, Span
from hts.base.text.reading import Unreadable, decoded, read_bytes
from hts.checking.checker.program import digest_of, program
from hts.checking.checker.results import JointOutcomes, Outcome, UncheckedFile, Use
from hts.checking.checker.sealed_file import read, write
from hts.checking.checker.setting import PLAIN, Setting
from hts.checking.checker.stored import Foreign, Place, from_data, past, to_data
from hts.checking.checker.tasks import Task

#: Names kept for a root at most, or as many as a run has; the longest unused go first.
MOST_NAMES = 20_000
_MARK = BYTE_ORDER_MARK.encode("utf-8")


class Cache:
    """What is kept about the files below one root."""

    def __init__(self, folder: str, root: str, setting: Setting = PLAIN, packs: str = "") -> None:
        self.root = root
        self._folder = folder
        # The digest leaves out where a default stands, which findings may name.
        configured = f"{setting.digest} {setting.defaults!r} {setting.predicts}"
        key = "\0".join((os.path.realpath(root), program(), configured, packs))
        self._key = digest_of(os.fsencode(key))
        self._path = os.path.join(folder, f"{self._key}.json")
        kept = read(self._path, self._key, root)
        self._names: dict[str, Any] = kept["names"] if kept else {}
        self._uses = [Use(*use) for use in kept["uses"]] if kept else []
        self._kinds: dict[str, Any] = kept["kinds"] if kept else {}
        self._numbers = {use: number for number, use in enumerate(self._uses)}
        self._used: dict[str, Any] = {}
        self._texts: dict[str, Source] = {}
        self._holds: dict[int, bool] = {}
        self._changed = False

    def find(self, task: Task, today: str | None) -> Outcome | None:
        """The outcome of a file as it is now, where it is known."""
        name = task.name
        entry = self._names.get(name)
        if entry is None:
            return None
        digest, uses, days, over, findings, waived, _ = entry
        try:
            data = task.read()
        except Unreadable:
            return None
        if digest != digest_of(data) or over != past(days, today):
            return None
        if not all(self._still(number) for number in uses):
            return None
        self._used[name] = entry
        if not findings and not waived:
            return Outcome(name, [])
        texts = [task.source(data), *(self._texts[self._uses[number].real] for number in uses)]

        def span(at: Place) -> Span:
            return texts[at[0]].span(*at[1:])

        told = [from_data(f, span, self._kind) for f in findings]
        covered = [(from_data(f, span, self._kind), why) for f, why in waived]
        return Outcome(name, told, waived=tuple(covered))

    def joints(self, name: str) -> JointOutcomes:
        """What is known of the joints of a text that was changed, each with what it hangs on."""
        entry = self._names.get(name)
        joints: JointOutcomes = entry[6] if entry is not None else {}
        return joints

    def keep(self, outcome: Outcome, today: str | None) -> None:
        """Keeps an outcome for the next run."""
        basis = outcome.basis
        if basis is None:
            return
        texts = {name: n for n, name in enumerate((outcome.name, *(u.real for u in basis.uses)))}

        def place(span: Span) -> Place:
            if span.source.name not in texts:
                raise Foreign(span.source.name)
            return [texts[span.source.name], span.start, span.end]

        with suppress(Foreign):
            findings = [to_data(f, place, self._kinds) for f in outcome.findings]
            waived = [[to_data(f, place, self._kinds), why] for f, why in outcome.waived]
            uses = [self._number(use) for use in basis.uses]
            over = past(basis.days, today)
            rests_on = [basis.digest, uses, basis.days, over]
            self._used[outcome.name] = [*rests_on, findings, waived, outcome.joints or {}]
            self._changed = True

    def save(self) -> None:
        """Writes what is new; the file is at every moment the old one or the new one."""
        if not self._changed:
            return
        names = {name: e for name, e in self._names.items() if name not in self._used}
        spare = max(0, MOST_NAMES - len(self._used))
        names = dict(list(names.items())[-spare:] if spare else ()) | self._used
        write(self._path, self._key, self.root, self._body(names))

    def _body(self, names: dict[str, Any]) -> dict[str, Any]:
        """What is written: the entries, with the uses and kinds that they still name."""
        numbers = {
            n: new for new, n in enumerate(sorted({n for e in names.values() for n in e[1]}))
        }
        codes = {
            finding[0]
            for entry in names.values()
            for finding in (*entry[4], *(each for each, _ in entry[5]))
        }
        return {
            "names": {
                name: [digest, [numbers[n] for n in uses], *rest]
                for name, (digest, uses, *rest) in names.items()
            },
            "uses": [self._uses[n] for n in numbers],
            "kinds": {code: kind for code, kind in self._kinds.items() if code in codes},
        }

    def _number(self, use: Use) -> int:
        number = self._numbers.setdefault(use, len(self._uses))
        if number == len(self._uses):
            self._uses.append(use)
        return number

    def _still(self, number: int) -> bool:
        """Whether a used file is where and what it was; asked once in a run."""
        holds = self._holds.get(number)
        if holds is None:
            holds = self._holds[number] = self._is(self._uses[number])
        return holds

    def _is(self, use: Use) -> bool:
        real = os.path.realpath(os.path.join(self.root, use.said))
        if real != os.path.join(self.root, *use.real.split("/")):
            return False
        try:
            data = read_bytes(real).removeprefix(_MARK)
            if use.digest != digest_of(data):
                return False
            self._texts[use.real] = Source(decoded(data), use.real, real)
        except Unreadable:
            return False
        return True

    def _kind(self, code: str) -> Kind:
        return Kind(*self._kinds[code])


class Caches:
    """The caches of one run, opened as roots and configurations turn up."""

    def __init__(self, folder: str) -> None:
        self._folder = os.path.abspath(folder)
        self._caches: dict[tuple[str, Setting], Cache] = {}
        self._stamps: dict[tuple[str, ...], str | None] = {}

    def find(self, task: Task | UncheckedFile, today: str | None) -> Outcome | UncheckedFile | None:
        """What is known of a task without checking it."""
        if isinstance(task, UncheckedFile):
            return task
        cache = self._of(task)
        return cache.find(task, today) if cache is not None else None

    def with_joints(self, task: Task | UncheckedFile) -> Task | UncheckedFile:
        """A task that has to be checked, with what is known of its joints."""
        if isinstance(task, UncheckedFile):
            return task
        cache = self._of(task)
        return task._replace(joints=cache.joints(task.name)) if cache is not None else task

    def keep(
        self, task: Task | UncheckedFile, outcome: Outcome | UncheckedFile, today: str | None
    ) -> None:
        if isinstance(task, Task) and isinstance(outcome, Outcome):
            cache = self._of(task)
            if cache is not None:
                cache.keep(outcome, today)

    def save(self) -> None:
        for cache in self._caches.values():
            cache.save()

    def _of(self, task: Task) -> Cache | None:
        """The cache for a file; None for standard input, and where rules of others are in force
        whose version nobody can tell."""
        setting = task.setting
        packs = self._stamp(setting.rule_packs)
        if task.data is not None or packs is None:
            return None
        key = task.root, setting
        if key not in self._caches:
            self._caches[key] = Cache(self._folder, *key, packs)
        return self._caches[key]

    def _stamp(self, packs: tuple[str, ...]) -> str | None:
        """What changes with the rule packs."""
        if not packs:
            return ""
        if packs not in self._stamps:
            from hts.checking.checker.packs import stamp

            self._stamps[packs] = stamp(packs)
        return self._stamps[packs]
