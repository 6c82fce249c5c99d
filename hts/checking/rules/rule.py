"""What a rule file declares.

A rule is one file named after the bad pattern. It holds one `RULE` and one function that looks for
the pattern; the examples are its tests and what the rule reference prints. An example is written as
changes to a complete small specification (`hts.checking.rules.examples`), old text to new.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any, NamedTuple

from hts.base.findings import WARNING, Finding, Kind, Label, Severity
from hts.base.text import Span

if TYPE_CHECKING:
    from hts.checking.govern.case import Case

SPEC, JOINT, TREATMENT = "spec", "joint", "treatment"


class Bad(NamedTuple):
    """An example that breaks the rule: ``changes`` are (old, new) texts applied to the base.

    ``at`` is the text the finding points at; ``base`` names the specification changed. ``says`` is
    what the message has to hold, every figure of it: words and figures as they stand there, with
    an ellipsis (``…``) for what lies between.
    """

    changes: tuple[tuple[str, str], ...]
    at: str
    base: str = "butt"
    today: str | None = None
    says: str = ""


class Good(NamedTuple):
    """An example that keeps the rule although it looks like breaking it."""

    changes: tuple[tuple[str, str], ...]
    base: str = "butt"
    today: str | None = None


class Edge(NamedTuple):
    """Two examples at the limit the rule holds a value to: ``keeps`` is the last value that keeps
    the rule, ``breaks`` the next one, which breaks it. Each is put where ``changes`` say ``{}``.

    ``at`` is the text the finding points at, the value that breaks the rule where none is named;
    ``says`` is what its message has to hold, as in `Bad`.
    """

    changes: tuple[tuple[str, str], ...]
    keeps: str
    breaks: str
    says: str = ""
    at: str = ""
    base: str = "butt"
    today: str | None = None

    @property
    def good(self) -> Good:
        return Good(self._with(self.keeps), self.base, self.today)

    @property
    def bad(self) -> Bad:
        changes = self._with(self.breaks)
        return Bad(changes, self.at or self.breaks, self.base, self.today, self.says)

    def _with(self, value: str) -> tuple[tuple[str, str], ...]:
        return tuple((old, new.replace("{}", value)) for old, new in self.changes)


class Agreement(NamedTuple):
    """What must agree with what: two places of the vocabulary as paths, and how they agree.

    The rows of all rules are the table of grammar/AGREEMENT.md; a rule's examples are its tests.
    """

    place: str
    other: str
    relation: str


class Rule:
    """One rule: its kind of finding, its source, its examples, and the function that checks.

    ``source`` names standard, paragraph and edition, or "common practice, no source"; ``basis`` is
    published, memory, practice or derived. ``bad`` and ``good`` hold the examples of the ``edges``,
    too. ``agrees``: the rows of the table of agreement it holds. ``about``: what each of its findings
    asks for, as paths of the vocabulary: where a procedure demands it in vain, that is told alone.
    """

    __slots__ = (
        "about",
        "agrees",
        "bad",
        "basis",
        "check",
        "edges",
        "family",
        "good",
        "kind",
        "source",
        "subject",
    )

    def __init__(
        self,
        code: str,
        name: str,
        severity: Severity,
        *,
        summary: str,
        why: str,
        fix: str,
        source: str,
        basis: str,
        bad: Iterable[Bad] = (),
        good: Iterable[Good] = (),
        edges: Iterable[Edge] = (),
        floor: Severity | None = None,
        agrees: Iterable[Agreement] = (),
        about: Iterable[str] = (),
    ) -> None:
        self.kind = Kind(code, name, severity, summary, why, fix, floor)
        self.source = source
        self.basis = basis
        self.edges = tuple(edges)
        self.bad = (*bad, *(edge.bad for edge in self.edges))
        self.good = (*good, *(edge.good for edge in self.edges))
        self.agrees = tuple(agrees)
        self.about = tuple(about)
        self.subject = ""
        self.check: Callable[..., None] = _unset
        self.family = ""

    # The decorators that tie a function to the rule -------------------------------------------

    def for_spec(self, check: Callable[[Case], None]) -> Callable[[Case], None]:
        """The function looks at the whole specification."""
        self.subject, self.check = SPEC, check
        return check

    def for_joint(self, check: Callable[[Case, Any], None]) -> Callable[[Case, Any], None]:
        """The function looks at one joint."""
        self.subject, self.check = JOINT, check
        return check

    def for_treatment(self, check: Callable[[Case, Any], None]) -> Callable[[Case, Any], None]:
        """The function looks at one bake or cycle of one joint."""
        self.subject, self.check = TREATMENT, check
        return check

    def found(
        self,
        message: str,
        at: Span,
        *,
        address: str,
        label: str = "",
        others: Iterable[Label] = (),
        notes: Iterable[str] = (),
        help: str = "",
        basis: str = "published",
    ) -> Finding:
        """A finding of this rule. ``basis`` is that of the figure the finding rests on: one from
        memory or mere practice never fails a build by itself."""
        severity = self.kind.severity
        if basis in ("memory", "practice") and severity == "error":
            severity = WARNING
        return Finding(
            self.kind,
            message,
            Label(at, label),
            address=address,
            others=others,
            notes=notes,
            help=help or self.kind.fix,
            severity=severity,
        )


def _unset(*_: Any) -> None:
    raise NotImplementedError("a rule file ties its function to RULE with a decorator")
