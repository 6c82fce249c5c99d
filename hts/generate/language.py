"""The language reference, made from the vocabulary, the units and the facts."""

from __future__ import annotations

from hts.base.quantities import DIMENSIONS, symbols_of
from hts.base.quantities.units import ALIASES
from hts.generate import language_demands as demands
from hts.generate import language_intro as intro
from hts.generate import language_lists as lists
from hts.generate.language_entries import section
from hts.generate.language_limits import limits
from hts.generate.language_records import RECORDS
from hts.language.vocabulary import types
from hts.language.vocabulary.checklist import DOCUMENTS, Asked
from hts.language.vocabulary.limit_lines import LIMIT_LINES
from hts.language.vocabulary.paths import find
from hts.language.vocabulary.spec import File
from hts.limits import FACTS
from hts.syntax.formula import Kind, Text
from hts.syntax.formula.functions import FUNCTIONS

PATH = "grammar/LANGUAGE.md"

_FUNCTIONS = {
    "sqrt": "square root, as `sqrt(inside_radius * t)`",
    "abs": "value without its sign",
    "max": "the largest of its values",
    "min": "the smallest of its values",
    "round_up": "the next whole number of steps, as `round_up(t, 25 mm)`",
    "round_down": "the whole number of steps before, as `round_down(t, 1 mm)`",
    "round_to": "the nearest whole number of steps, a half away from zero",
}


def generate(root: str) -> dict[str, str]:
    """The reference by its path."""
    lines = [
        intro.HEAD,
        demands.FIRST,
        intro.INTRO,
        *_units(),
        "",
        intro.NAMES,
        intro.FORMULAS,
        *_functions(),
        "",
        *_facts(),
        "",
        intro.LIMITS,
        *_limits(),
        "",
        demands.DEMANDS,
        demands.SILENCE,
        *lists.section(),
        "",
        *section(),
        "",
        intro.DOCUMENTS,
        *_documents(),
        "",
        RECORDS.rstrip("\n"),
        "",
        *limits(),
    ]
    return {PATH: "\n".join(lines) + "\n"}


def _units() -> list[str]:
    lines = [
        "## Units",
        "",
        "The set is closed. The first unit of a line is the one offered when none is written.",
        "",
        "| quantity | units |",
        "|---|---|",
    ]
    for dimension in DIMENSIONS:
        units = symbols_of(dimension)
        if units:
            lines.append(f"| {dimension.name} | {', '.join(f'`{unit}`' for unit in units)} |")
    others = ", ".join(f"`{alias}` for `{unit}`" for alias, unit in ALIASES.items())
    return [
        *lines,
        "",
        f"Read as well: `°` for `deg`, `µ` for `u`, `²` and `³` for `2` and `3`, {others}.",
        "",
        "Hardness scales are not converted into each other.",
    ]


def _functions() -> list[str]:
    rows = [f"| `{name}` | {_FUNCTIONS[name]} |" for name in FUNCTIONS]
    return ["| function | gives |", "|---|---|", *rows]


def _facts() -> list[str]:
    rows = [
        f"| `{name}` | {_kind(fact.kind)} | {fact.meaning} | {fact.per} |"
        for name, fact in FACTS.items()
    ]
    return [
        "The facts a formula or condition may name are a closed list. One that belongs to a side is"
        " taken for each side, and the strictest result counts.",
        "",
        "| fact | kind | meaning | of each |",
        "|---|---|---|---|",
        *rows,
    ]


def _kind(kind: Kind) -> str:
    if isinstance(kind, Text):
        return ", ".join(f"`{word}`" for word in kind.words) or "word"
    return getattr(kind, "name", "condition")


def _limits() -> list[str]:
    lines = ["| limit | clauses | meaning | example |", "|---|---|---|---|"]
    for words, cls in LIMIT_LINES.items():
        own = [
            f"`{' '.join(field.words)}`"
            for field in cls.fields.values()
            if field.name not in ("when", "note", "replaces")
        ]
        meaning = cls.meaning().partition(": ")[2].rstrip(".")
        lines.append(f"| `{words}` | {', '.join(own)} | {meaning} | `{cls.example}` |")
    return lines


def _documents() -> list[str]:
    lines: list[str] = []
    for document, fields in DOCUMENTS.items():
        lines += [f"### {document}", "", "| field | said by |", "|---|---|"]
        lines += [f"| {asked.field} | {_said_by(asked)} |" for asked in fields]
        lines.append("")
    every = [asked for fields in DOCUMENTS.values() for asked in fields]
    typed = sum(1 for asked in every if not _is_text(asked) and asked.paths)
    texts = sum(1 for asked in every if _is_text(asked))
    made = sum(1 for asked in every if not asked.paths)
    covered = typed + texts + made
    return [
        *lines,
        f"{covered} of {len(every)} fields have their place: {typed} in typed entries, {texts} as"
        f" free text, {made} worked out from others.",
    ]


def paths(asked: Asked) -> list[str]:
    """The paths of a field, without the choices after them."""
    return [path.partition(" = ")[0] for path in asked.paths.split("; ") if path]


def _is_text(asked: Asked) -> bool:
    """Whether a field is free text only."""
    said = [find(File, path).type for path in paths(asked)]
    return bool(said) and all(isinstance(kind, types.Text) for kind in said)


def _said_by(asked: Asked) -> str:
    if not asked.paths:
        return f"worked out: {asked.worked_out}"
    shown = ", ".join(f"`{path}`" for path in asked.paths.split("; "))
    return f"{shown} *(text)*" if _is_text(asked) else shown
