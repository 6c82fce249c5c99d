"""Which joints share a packet: those that one cycle heats together."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.job.compiler.job import Job, JointSheet
from hts.job.compiler.why import Why
from hts.job.compiler.wording import clauses, entries
from hts.job.outputs.setpoint_sheet import amount
from hts.job.outputs.show import Shown
from hts.language.vocabulary.cycle import Cycle
from hts.language.vocabulary.declare import Entry
from hts.paper.packet import letters
from hts.paper.packet.pages import Pages

_LONGEST = 60
_UNSAFE = re.compile(r"[^A-Za-z0-9.]+")


def joints(names: Sequence[str]) -> str:
    """`joint W21`, `joints W21, W22`."""
    return f"joint{'s' if len(names) > 1 else ''} {', '.join(names)}"


def headed(names: Sequence[str]) -> str:
    """The same as it begins a heading."""
    return f"J{joints(names)[1:]}"


class Subject(NamedTuple):
    """What one packet is about; `file` is its name without an ending."""

    job: Job
    sheets: tuple[JointSheet, ...]
    shown: Shown
    file: str

    @property
    def headed(self) -> str:
        """The joints as they begin a heading: `Joints W21, W22`."""
        return headed([sheet.joint.name for sheet in self.sheets])

    @property
    def name(self) -> str:
        """The joints: `W21, W22`."""
        return ", ".join(sheet.joint.name for sheet in self.sheets)

    def words(self, entry: Entry | None) -> str:
        """What an entry of the text says, clause by clause, in the units of the paper."""
        if entry is None:
            return ""
        return ", ".join(clauses(entry, self._say))

    def block_words(self, entry: Entry | None) -> str:
        """The name of a block and every entry of it in the words of the text."""
        if entry is None:
            return ""
        parts = (*clauses(entry, self._say, block=False), *entries(entry, self._say))
        return ", ".join(part for part in parts if part)

    def _say(self, value: Quantity, direction: str) -> str:
        return amount(self.shown, value, direction)

    def mark(self, why: Why | None) -> str:
        """The mark of a value with this reason."""
        return letters.mark_of(why.basis) if why is not None else ""

    def head(self, page: Pages, sheet: JointSheet) -> None:
        """The heading of one joint's part; a packet about a single joint needs none."""
        if len(self.sheets) > 1:
            page.heading(2, f"Joint {sheet.joint.name}")


def subjects(job: Job) -> list[Subject]:
    """The packets of a job, in the order of the text."""
    shown = Shown(job.units, job.changes)
    groups = _groups(job)
    names = _names(["-".join(sheet.joint.name for sheet in group) for group in groups])
    return [
        Subject(job, tuple(group), shown, name) for group, name in zip(groups, names, strict=True)
    ]


def _groups(job: Job) -> list[list[JointSheet]]:
    """Joints that stand together in a cycle that heats them together, directly or by a third."""
    groups: list[list[JointSheet]] = []
    for sheet in job.joints:
        partners = _partners(sheet)
        joined = [sheet]
        for group in [g for g in groups if any(one.joint.name in partners for one in g)]:
            groups.remove(group)
            joined = [*group, *joined]
        groups.append(joined)
    order = {sheet.joint.name: place for place, sheet in enumerate(job.joints)}
    for group in groups:
        group.sort(key=lambda one: order[one.joint.name])
    return sorted(groups, key=lambda group: order[group[0].joint.name])


def _partners(sheet: JointSheet) -> set[str]:
    entries = [run.program.entry for run in sheet.runs]
    return {
        reference.name
        for entry in entries
        if isinstance(entry, Cycle) and entry.together
        for reference in entry.joints
    }


def _names(wanted: Iterable[str]) -> list[str]:
    """Names of files: letters every disk knows, none twice even where case does not count."""
    found: list[str] = []
    taken: set[str] = set()
    for text in wanted:
        safe = _UNSAFE.sub("-", text)[:_LONGEST].strip("-.") or "joint"
        name, number = safe, 2
        while name.lower() in taken:
            name, number = f"{safe}-{number}", number + 1
        taken.add(name.lower())
        found.append(name)
    return found
