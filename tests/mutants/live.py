"""A slip put into code that is running: functions get the code of the changed file."""

from __future__ import annotations

import ast
import functools
import gc
import sys
import types
from collections.abc import Iterator
from pathlib import Path

from tests.mutants.code import Slip

#: A function of a file: its name within the file, and its first line.
Key = tuple[str, int]


def key(code: types.CodeType) -> Key:
    return code.co_qualname, code.co_firstlineno


def holder(root: Path, slip: Slip) -> Key | None:
    """The outermost function whose body the slip is in; None where it is run by the import."""
    tree = ast.parse((root / slip.path).read_text(encoding="utf-8"))
    found = _body(tree, slip)
    keys = _sole(compile(tree, slip.path, "exec"))
    return next((one for one in keys if one[1] == found), None)


def _body(node: ast.AST, slip: Slip) -> int | None:
    """The first line of the outermost function below a node whose body has the slip."""
    for child in ast.iter_child_nodes(node):
        if not _within(child, slip):
            continue
        if isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            parts = child.body if isinstance(child.body, list) else [child.body]
            if any(_within(part, slip) for part in parts):
                # The code of a function begins with the first of its decorators.
                first = getattr(child, "decorator_list", [])
                return min([child.lineno, *(one.lineno for one in first)])
        return _body(child, slip)
    return None


def _within(node: ast.AST, slip: Slip) -> bool:
    start = (getattr(node, "lineno", 0), getattr(node, "col_offset", 0))
    end = (getattr(node, "end_lineno", 10**9), getattr(node, "end_col_offset", 0))
    if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
        start = min([start, *((one.lineno, 0) for one in node.decorator_list)])
    return start <= (slip.line, slip.start) < end


def _sole(code: types.CodeType) -> dict[Key, types.CodeType]:
    """The functions of a file by their keys, but for lambdas that share a line."""
    found: dict[Key, list[types.CodeType]] = {}
    for each in _codes(code):
        found.setdefault(key(each), []).append(each)
    return {k: those[0] for k, those in found.items() if len(those) == 1}


def _codes(code: types.CodeType) -> Iterator[types.CodeType]:
    yield code
    for const in code.co_consts:
        if isinstance(const, types.CodeType):
            yield from _codes(const)


def put(root: Path, slip: Slip) -> int:
    """Gives every living function of the file, which is changed already, its new code; returns
    how many. What was worked out before the change is forgotten."""
    file = str(root / slip.path)
    new: dict[Key, types.CodeType] = {}
    if file.endswith(".py"):
        text = (root / slip.path).read_text(encoding="utf-8")
        new = _sole(compile(text, file, "exec", dont_inherit=True))
    swapped = 0
    # What the tests have put beyond the collector's look (`conftest`) is not listed.
    gc.unfreeze()
    for thing in gc.get_objects():
        if isinstance(thing, types.FunctionType) and thing.__code__.co_filename == file:
            code = new.get(key(thing.__code__))
            if code is not None and code.co_freevars == thing.__code__.co_freevars:
                thing.__code__ = code
                swapped += 1
        elif isinstance(thing, functools._lru_cache_wrapper) and _ours(thing):
            thing.cache_clear()
    return swapped


#: The rooms in their order: what an earlier one keeps, as books and grammars, calls no later one.
_ROOMS = ("base", "science", "syntax", "limits", "language", "checking", "job", "predict", "paper",
          "record", "editor", "view", "plugin", "plan", "cli", "generate")  # fmt: skip


def forget(room: str) -> None:
    """Forgets what functions of the tests, of a room and of later ones keep, so that a test works
    out anew what it asks for, and is seen to."""
    kept = _ROOMS[: _ROOMS.index(room)] if room in _ROOMS else ()
    for name, module in list(sys.modules.items()):
        top, _, rest = name.partition(".")
        if top == "tests" or (top == "hts" and rest.partition(".")[0] not in kept):
            for thing in list(vars(module).values()):
                if isinstance(thing, functools._lru_cache_wrapper):
                    thing.cache_clear()


def _ours(thing: object) -> bool:
    return str(thing.__module__).partition(".")[0] in ("hts", "tests")
