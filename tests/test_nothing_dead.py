"""No function of the program is reached from tests alone."""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Iterator
from fnmatch import fnmatchcase
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
#: Decorators that leave a function to be called by its name; others hand it to a caller.
_PLAIN = {"property", "staticmethod", "classmethod", "cached_property", "lru_cache", "cache"}
_PLAIN |= {"contextmanager", "overload"}

#: Functions that nothing but tests calls, by `module.function`, and why they stay.
WAITING = {
    "hts.cli.lazy.format_commands": "called by the library the commands are built with",
    "hts.editor.pygments_lexer.*": "named by the entry point of pyproject.toml",
    "hts.view.server.*": "called by the server of the standard library",
    "hts.base.quantities.intervals.intersect": "arithmetic of a range, for rule packs",
    "hts.base.quantities.quantity.ratio_to": "arithmetic of a quantity, for rule packs",
    "hts.notebook.*": "for notebooks and programs that use the library",
    "hts.plugin.testing.check_examples": "for the tests of a rule pack",
    "hts.science.field.*": "the temperature field, to be told of a specification",
    "hts.science.heat.*": "conduction, losses and stress, for figures of the wall to come",
    "hts.science.metallurgy.*": "estimates of preheat, cooling and hydrogen, to come as advice",
    "hts.science.saddle.*": "the line of a branch on its run, for drawings",
    "hts.science.thermocouples.*": "faults of wiring, limits of wire, for figures in findings",
    "hts.science.uncertainty.*": "decisions made with a budget, beside the guard bands in use",
}


def _modules() -> Iterator[tuple[str, ast.Module]]:
    for path in sorted((ROOT / "hts").rglob("*.py")):
        name = ".".join(path.relative_to(ROOT).with_suffix("").parts)
        yield name, ast.parse(path.read_text("utf-8"))


def _by_name(decorators: list[ast.expr]) -> bool:
    return all(ast.unparse(d).split("(")[0].split(".")[-1] in _PLAIN for d in decorators)


def unreached() -> list[str]:
    """`module.function` of every function and class whose name no module of the program says."""
    defined: list[tuple[str, str]] = []
    said: Counter[str] = Counter()
    for module, tree in _modules():
        for node in ast.walk(tree):
            if isinstance(node, ast.FunctionDef | ast.ClassDef):
                if not node.name.startswith("__") and _by_name(node.decorator_list):
                    defined.append((module, node.name))
            elif isinstance(node, ast.Name):
                said[node.id] += 1
            elif isinstance(node, ast.Attribute):
                said[node.attr] += 1
    return [f"{module}.{name}" for module, name in defined if not said[name]]


def test_what_only_tests_reach_is_listed_with_its_reason() -> None:
    found = unreached()
    unlisted = [name for name in found if not any(fnmatchcase(name, w) for w in WAITING)]
    assert unlisted == [], "wire it in, or take it out"
    idle = [w for w in WAITING if not any(fnmatchcase(name, w) for name in found)]
    assert idle == [], "in use by now: take it off the list"
