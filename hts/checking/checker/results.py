"""What comes of a check: outcomes of single texts, and the results of a whole run."""

from __future__ import annotations

from typing import Any, NamedTuple

from hts.base.findings import Finding, Severity
from hts.language.model.defaults import Quieted


class UncheckedFile(NamedTuple):
    """A path that could not be read or not wholly judged, and why."""

    name: str
    reason: str


class PackError(Exception):
    """A rule pack that is not there or does not work; the message says which and why."""


class Use(NamedTuple):
    """A file that another one uses: its path below the root as said and with links followed
    (forward slashes), and the digest of its text."""

    said: str
    real: str
    digest: str


class Basis(NamedTuple):
    """What an outcome rests on, so that it can be told whether it still holds.

    ``days`` are the ISO dates that were compared with the day of the check.
    """

    digest: str
    uses: tuple[Use, ...]
    days: tuple[str, ...]


#: By a digest of all that a joint hangs on: the days a rule asked about, how many of them are past,
#: its findings as data, and the rules about the specification that found nothing at it.
JointOutcomes = dict[str, list[Any]]


class Suppressed(NamedTuple):
    """A finding that does not count: ``in_text`` for a waiver of the text, else for the baseline;
    ``why`` is the reason that is given."""

    finding: Finding
    in_text: bool
    why: str


class Outcome(NamedTuple):
    """What came of one text. ``basis`` is None where the outcome cannot be kept for another run.
    ``waived``: the findings its waivers cover, each with the reason. ``faults``: what went wrong in
    single rules of a pack; all others were put to it. ``joints``: what is kept of the joints of a
    weld list, for the next run after a change of the text."""

    name: str
    findings: list[Finding]
    basis: Basis | None = None
    faults: tuple[str, ...] = ()
    waived: tuple[tuple[Finding, str], ...] = ()
    joints: JointOutcomes | None = None


class Shard(NamedTuple):
    """One of several equal parts of all files: ``number`` from 1 to ``of``."""

    number: int
    of: int


class ShardPlan(NamedTuple):
    """How files were dealt out: the shard at hand, the names of all files, those of the other
    shards, too, and the digest of what else the outcome depends on."""

    shard: Shard
    files: tuple[str, ...]
    conditions: str


class Results:
    """Findings of all files, in the order of the files; ``shard_plan`` is None but for a shard.

    Of a baseline, ``known`` is the number of findings it left out, and ``gone`` tells the entries
    that no finding answers to any more. ``quieted`` are the rules that files of settings left out
    or made count for less; ``suppressed`` are the findings that do not count. ``in_pieces``: of the
    texts only the lines that findings point at are there.
    """

    __slots__ = (
        "checked",
        "failures",
        "findings",
        "gone",
        "in_pieces",
        "known",
        "quieted",
        "shard_plan",
        "suppressed",
    )

    def __init__(self) -> None:
        self.findings: list[Finding] = []
        self.suppressed: list[Suppressed] = []
        self.failures: list[UncheckedFile] = []
        self.checked: list[str] = []
        self.shard_plan: ShardPlan | None = None
        self.known = 0
        self.gone: list[str] = []
        self.quieted: list[Quieted] = []
        self.in_pieces = False

    def add(self, outcome: Outcome | UncheckedFile) -> None:
        """Takes up what came of one further file."""
        if isinstance(outcome, UncheckedFile):
            self.failures.append(outcome)
        else:
            self.checked.append(outcome.name)
            self.findings += outcome.findings
            self.suppressed += [Suppressed(each, True, why) for each, why in outcome.waived]
            self.failures += [UncheckedFile(outcome.name, fault) for fault in outcome.faults]

    def arrange(self) -> None:
        """Puts the findings in the one order every output uses.

        What is found in a used file stands with that file, and last where it is not checked itself;
        where several files use it, it is told once.
        """
        ranks = {name: rank for rank, name in enumerate(self.checked)}
        last = len(ranks)

        def rank(finding: Finding) -> tuple[Any, ...]:
            return (ranks.get(finding.source.name, last), finding.sort_key())

        self.suppressed.sort(key=lambda each: (rank(each.finding), each.why))
        if self.findings:
            once = {
                (f.kind.code, f.source.name, f.at.span[1:], f.address, f.message): f
                for f in reversed(self.findings)
            }
            self.findings = list(once.values())
            self.findings.sort(key=rank)

    def counts(self) -> dict[Severity, int]:
        """Findings of each severity, the worst first."""
        found: dict[Severity, int] = {"error": 0, "warning": 0, "advice": 0}
        for finding in self.findings:
            found[finding.severity] += 1
        return found

    @property
    def exit_code(self) -> int:
        """0 clean, 1 errors or warnings, 2 something could not be read."""
        if self.failures:
            return 2
        return int(any(finding.severity != "advice" for finding in self.findings))
