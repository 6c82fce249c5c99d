"""Rules explained: what the bad pattern is, why it matters, what to do, where it comes from."""

from __future__ import annotations

from difflib import SequenceMatcher
from typing import Any

from hts.base.findings import Kind
from hts.checking.checker.packs import kinds, rules_of
from hts.checking.rules.catalogue import rules
from hts.checking.rules.examples import BASES, changed
from hts.checking.rules.rule import Agreement, Bad, Edge, Rule

LANGUAGE = "language"


def entries(packs: tuple[str, ...] = ()) -> list[tuple[Kind, Rule | None]]:
    """Every kind of finding by code, with its rule where it is one of the trade's, and those of
    rule packs. Raises PackError."""
    by_code = {rule.kind.code: rule for rule in (*rules(), *rules_of(packs))}
    return [(kind, by_code.get(kind.code)) for kind in kinds(packs)]


def family(rule: Rule | None) -> str:
    """Family of a rule; what the language itself asks for is a family of its own."""
    return rule.family if rule is not None else LANGUAGE


def find(wanted: str, packs: tuple[str, ...] = ()) -> tuple[Kind, Rule | None] | None:
    """The rule with this code (in any case) or name."""
    for kind, rule in entries(packs):
        if wanted in (kind.code, kind.name) or wanted.upper() == kind.code:
            return kind, rule
    return None


def line(kind: Kind, rule: Rule | None) -> str:
    """One line of a list."""
    return f"{kind.code}  {kind.severity:<8} {kind.name:<36} {family(rule)}"


def text(kind: Kind, rule: Rule | None) -> str:
    """The whole explanation."""
    parts = [
        f"{kind.code} {kind.name} ({kind.severity}, {family(rule)})",
        "",
        kind.summary,
        "",
        f"Why it matters: {kind.why}",
        f"What to do: {kind.fix}",
    ]
    if kind.lowest is not None:
        parts.append(
            f"It cannot be set below {kind.lowest}"
            + (", nor waived." if kind.floor == "error" else ".")
        )
    if rule is not None:
        parts.append(f"Source: {rule.source} (basis: {rule.basis})")
        for bad in rule.bad[:1]:
            before, after = compared(bad)
            parts += ["", "Before (breaks the rule):", *(f"    {line}" for line in before)]
            if after:
                parts += ["", "After (keeps it):", *(f"    {line}" for line in after)]
        for good in rule.good[:1]:
            parts += ["", "Also keeps it:", *_example(good)]
        if rule.edges:
            parts += ["", "At the limit:"]
        for edge in rule.edges:
            kept, broken = at_the_limit(edge)
            parts += [f"    keeps it   {kept}", f"    breaks it  {broken}"]
    return "\n".join(parts) + "\n"


def compared(bad: Bad) -> tuple[list[str], list[str]]:
    """The whole lines of a bad example that break the rule, and those that keep it in their place;
    none where the example breaks it as the base stands."""
    broken, kept = changed(bad.base, bad.changes).splitlines(), BASES[bad.base].splitlines()
    before: list[str] = []
    after: list[str] = []
    for tag, i1, i2, j1, j2 in SequenceMatcher(None, broken, kept, autojunk=False).get_opcodes():
        if tag == "equal":
            continue
        old = [line.strip() for line in broken[i1:i2] if line.strip()]
        new = [line.strip() for line in kept[j1:j2] if line.strip()]
        before += old or [f"(without) {line}" for line in new]
        after += new or [f"(without) {line}" for line in old]
    return before or [bad.at], after


def at_the_limit(edge: Edge) -> tuple[str, str]:
    """The line of an edge that still keeps the rule, and the one that breaks it."""
    lines = (line.strip() for _, new in edge.changes for line in new.splitlines())
    line = next(line for line in lines if "{}" in line)
    return line.replace("{}", edge.keeps), line.replace("{}", edge.breaks)


def _example(example: Any) -> list[str]:
    """The lines an example changes, as they stand in it."""
    lines = []
    for old, new in example.changes:
        shown = new if new.strip() else f"(without) {old.strip()}"
        lines += [f"    {part.strip()}" for part in shown.strip().splitlines() if part.strip()]
    if not lines:
        lines = [f"    {example.at}" if isinstance(example, Bad) else "    (the base as it is)"]
    return lines


def as_json(kind: Kind, rule: Rule | None) -> dict[str, Any]:
    """The explanation as data."""
    data: dict[str, Any] = {
        "code": kind.code,
        "name": kind.name,
        "severity": kind.severity,
        "floor": kind.lowest,
        "family": family(rule),
        "summary": kind.summary,
        "why": kind.why,
        "fix": kind.fix,
    }
    if rule is not None:
        data["source"] = rule.source
        data["basis"] = rule.basis
        data["bad"] = ["\n".join(compared(bad)[0]) for bad in rule.bad]
        data["mended"] = ["\n".join(compared(bad)[1]) for bad in rule.bad]
        data["good"] = ["\n".join(_example(good)) for good in rule.good]
        limits = [at_the_limit(edge) for edge in rule.edges]
        data["at_the_limit"] = [{"keeps": kept, "breaks": broken} for kept, broken in limits]
    return data


def agreement() -> list[tuple[Agreement, Rule]]:
    """What must agree with what, each row with the rule that holds it, by place."""
    found = [(row, rule) for rule in rules() for row in rule.agrees]
    return sorted(found, key=lambda item: item[0])
