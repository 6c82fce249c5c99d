"""The rule reference and the book reference, written from what the program itself explains."""

from __future__ import annotations

from hts.generate import books_page
from hts.job.explain import rules

#: What `hts rules --format json` calls an example, and its title.
_EXAMPLES = {
    "bad": "Before (breaks the rule)",
    "mended": "After (keeps it)",
    "good": "Also keeps it",
}
_NOTE = "<!-- Written by `python -m hts.generate`; change the rules or books instead. -->"


def generate(root: str) -> dict[str, str]:
    """Path to text of both references."""
    return {
        "grammar/RULES.md": _rules(),
        "grammar/BOOKS.md": books_page.page(),
        "grammar/AGREEMENT.md": _agreement(),
    }


def _agreement() -> str:
    parts = [
        "# What must agree with what",
        "",
        _NOTE,
        "",
        "Facts of one specification that hang together. Each row is a relation a rule holds; its"
        " examples are in [RULES.md](RULES.md). Places are paths of the language: entries from the"
        " outermost on.",
        "",
        "| place | agrees with | how | why | rule |",
        "|---|---|---|---|---|",
    ]
    for row, rule in rules.agreement():
        kind = rule.kind
        parts.append(
            f"| `{row.place}` | `{row.other}` | {row.relation} | {kind.why.replace('|', '/')} "
            f"| {kind.code} {kind.name} ({rule.basis}) |"
        )
    return "\n".join(parts) + "\n"


def _rules() -> str:
    listed = rules.entries()
    families = sorted({rules.family(rule) for _, rule in listed})
    parts = [
        "# Rules",
        "",
        _NOTE,
        "",
        f"{len(listed)} kinds of finding in {len(families)} families. `hts rules CODE` prints one"
        " of them in a terminal.",
        "",
        "A limit that rests on memory or mere practice warns and never fails a build by itself,"
        " whatever the severity of its rule.",
        "",
        "| codes | family | next |",
        "|---|---|---|",
        *_series(),
    ]
    for family in families:
        parts += ["", f"## {family}"]
        for kind, rule in listed:
            if rules.family(rule) != family:
                continue
            parts += [
                "",
                f"### {kind.code} {kind.name}",
                "",
                f"*{kind.severity}*"
                + (f", never below {kind.lowest}" if kind.lowest else "")
                + f". {kind.summary}",
                "",
                f"- Why: {kind.why}",
                f"- Instead: {kind.fix}",
            ]
            if rule is None:
                continue
            parts.append(f"- Source: {rule.source} ({rule.basis})")
            data = rules.as_json(kind, rule)
            for word, title in _EXAMPLES.items():
                if data[word] and data[word][0]:
                    lines = "\n".join(line.strip() for line in data[word][0].splitlines())
                    parts += ["", f"{title}:", "", "```", lines, "```"]
            if data["at_the_limit"]:
                rows = [(edge["keeps"], edge["breaks"]) for edge in data["at_the_limit"]]
                parts += ["", "At the limit, kept and broken:", "", "```"]
                parts += [f"{kept}\n{broken}" for kept, broken in rows]
                parts.append("```")
    return "\n".join(parts) + "\n"


def _series() -> list[str]:
    """One row for each letter and first digit: whose codes they are, and the next free one."""
    numbers: dict[str, list[int]] = {}
    homes: dict[str, str] = {}
    for kind, rule in rules.entries():
        series = kind.code[:-2]
        numbers.setdefault(series, []).append(int(kind.code[-2:]))
        homes[series] = rules.family(rule)
    return [
        f"| {series}{min(taken):02} to {series}{max(taken):02} | {homes[series]} "
        f"| {series}{max(taken) + 1:02} |"
        for series, taken in sorted(numbers.items())
    ]
