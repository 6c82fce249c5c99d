"""One specification under check: what rules may ask for."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from functools import cached_property
from typing import Any

from hts.base.findings import Finding, Report
from hts.checking.govern.foreseen import Foreseen, Unforeseen, foreseen
from hts.checking.govern.joint import JointLimits, Shared
from hts.checking.govern.sources import Authority, authorities
from hts.language.model import Spec
from hts.language.model.joint import Joint, Treatment

#: By the books in force.
_BY_BOOKS: dict[tuple[tuple[str, str], ...], Shared] = {}


class Case:
    """A specification with its limits worked out on demand.

    ``today`` (ISO date, or None) is the day waivers and calibrations are judged on; None means
    that nothing that depends on the date is judged.
    """

    def __init__(self, spec: Spec, today: str | None = None) -> None:
        self.spec = spec
        self.today = today
        #: The days that `past` was asked about: the outcome rests on no other date.
        self.days: set[str] = set()
        self.report = Report()
        #: What procedures demand of each joint by name ("": of the job), kept by govern.demanded.
        self.outcomes: dict[str, list[Any]] = {}
        #: What went wrong in rules of others, a line each.
        self.faults: list[str] = []
        #: The findings that waivers of the text cover, each with the reason.
        self.waived: list[tuple[Finding, str]] = []
        #: Whether predictions are made although nobody in the text asks for them.
        self.predicts = False
        #: Whether none is made, whoever asks; then `unpredicted` are the addresses of the
        #: treatments one is asked for of.
        self.never_predicts = False
        self.unpredicted: dict[str, None] = {}
        #: By the code of a rule about the specification, the joints at which it finds nothing.
        self.nothing: dict[str, set[str]] = {}
        self._foreseen: dict[str, Foreseen | Unforeseen] = {}
        self._limits: dict[tuple[str, str], JointLimits] = {}

    def past(self, day: str | None) -> bool:
        """Whether a day (ISO date) is over on the day of the check; no unknown day is."""
        if day is None:
            return False
        self.days.add(day)
        return self.today is not None and day < self.today

    def ahead(self, day: str) -> bool:
        """Whether a day (ISO date) is still to come on the day of the check."""
        # That it is holds until the day before it has passed.
        self.days.add((date.fromisoformat(day) - timedelta(days=1)).isoformat())
        return self.today is not None and self.today < day

    def run_out(self, day: str | None) -> bool:
        """Whether a day is over on the day of the check, or was on that of the revision."""
        job = self.spec.file.job
        issued = job.revision.on if job is not None and job.revision is not None else None
        return self.past(day) or (day is not None and issued is not None and day < issued)

    @cached_property
    def authorities(self) -> list[Authority]:
        return authorities(self.spec, self.report)

    @cached_property
    def _shared(self) -> Shared:
        """What governs joints of equal facts is worked out once: in this text, and where nothing
        but shipped books governs, in all texts of the process."""
        if not all(each.is_book and each.file is None for each in self.authorities):
            return Shared(self.authorities)
        books = tuple((each.name, each.edition) for each in self.authorities)
        if books not in _BY_BOOKS:
            _BY_BOOKS[books] = Shared(self.authorities)
        return _BY_BOOKS[books]

    def limits(self, joint: Joint, treatment: Treatment | None = None) -> JointLimits:
        """What governs a joint, or one treatment of it."""
        key = (joint.name, treatment.name if treatment else "")
        found = self._limits.get(key)
        if found is None:
            alone = self.limits(joint) if treatment else None
            found = JointLimits(joint, treatment, self.authorities, self._shared, alone)
            self._limits[key] = found
        return found

    def joints(self) -> Iterator[Joint]:
        """The joints of this file that could be read whole."""
        return (joint for joint in self.spec.joints.values() if joint.sound and self._ours(joint))

    def _ours(self, joint: Joint) -> bool:
        """A joint of a used file counts where this file treats it."""
        return joint in self.spec.own or bool(joint.cycles or joint.bakes or joint.preheat)

    def treatments(self, joint: Joint) -> Iterator[Treatment]:
        """The bakes and cycles of a joint that could be read whole."""
        return (t for t in (*joint.bakes, *joint.cycles) if t.entry.sound)

    def nothing_at(self, code: str) -> set[str]:
        """The names of joints at which a rule about the specification, that looks at one after the
        other, is known to find nothing; it adds those it has looked at."""
        return self.nothing.setdefault(code, set())

    def foreseen(self, treatment: Treatment) -> Foreseen | Unforeseen:
        """What the temperatures of a treatment are predicted to be."""
        if treatment.address not in self._foreseen:
            self._foreseen[treatment.address] = foreseen(self, treatment)
        return self._foreseen[treatment.address]

    def has_foreseen(self, treatment: Treatment) -> bool:
        """Whether a prediction of it was asked for."""
        return treatment.address in self._foreseen

    @property
    def waits_for_installation(self) -> bool:
        """Whether the outcome would be another one with more packages installed."""
        found = (each for each in self._foreseen.values() if isinstance(each, Unforeseen))
        return any(each.not_installed for each in found)

    def add(self, finding: Finding) -> None:
        self.report.add(finding)
