"""What a configuration changes about a check: rules left out, severities, defaults of a text."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.findings import Finding, Severity
from hts.checking.checker.left_out import matches
from hts.language.model.defaults import NO_DEFAULTS, Defaults, Quieted


class Excluded(NamedTuple):
    """Files that a walk over folders leaves out: patterns as in a `.gitignore` of the folder
    ``base``, and what a report tells of it."""

    patterns: tuple[str, ...]
    base: str
    told: Quieted


class Setting(NamedTuple):
    """Hashable and small, so that it can travel to processes and be part of a key.

    ``ignored`` are codes of kinds that are left out, ``severities`` pairs of code and severity;
    both hold only what the floors of the kinds allow. ``excluded``: what a walk over folders leaves
    out. ``digest`` is that of the configuration,
    "" where there is none. ``predicts``: temperatures are predicted,
    asked for or not; ``never_predicts``: they are not, asked for or not.
    """

    defaults: Defaults = NO_DEFAULTS
    ignored: frozenset[str] = frozenset()
    severities: tuple[tuple[str, Severity], ...] = ()
    rule_packs: tuple[str, ...] = ()
    digest: str = ""
    excluded: Excluded | None = None
    predicts: bool = False
    never_predicts: bool = False

    def excludes(self, path: str) -> bool:
        """Whether a walk over folders leaves a file out."""
        return self.excluded is not None and matches(
            path, self.excluded.patterns, self.excluded.base
        )


#: Nothing configured.
PLAIN = Setting()


def applied(setting: Setting, findings: list[Finding]) -> list[Finding]:
    """The findings as the setting wants them. Call it after the waivers: what is ignored still
    counts as a reason for its waiver."""
    if setting.ignored:
        findings = [f for f in findings if f.kind.code not in setting.ignored]
    if setting.severities:
        wanted = dict(setting.severities)
        for finding in findings:
            severity = wanted.get(finding.kind.code)
            # A figure from memory or mere practice warns at most, whatever is configured.
            capped = severity == "error" and finding.severity != finding.kind.severity
            if severity is not None and not capped:
                finding.severity = severity
    return findings
