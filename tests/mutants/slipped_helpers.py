"""Slips in what rules share, put into the running code for as long as one rule is asked."""

from __future__ import annotations

import ast
import functools
import gc
import importlib
import sys
import types
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache

from hts.checking.rules.rule import Rule
from tests.mutants import code, live
from tests.mutants.slipped_rules import TOP, path_of

HELPERS = "hts/checking/rules/helpers/"


class Living:
    """A slip of a helper: the functions it is in, with the code they have and get, and the names of
    modules with what stands there and is put there."""

    def __init__(self, slip: code.Slip) -> None:
        self.functions: list[tuple[types.FunctionType, types.CodeType]] = []
        self.names: list[tuple[dict[str, object], str, object]] = []
        changed = _changed(slip)
        holder = live.holder(TOP, slip)
        if holder is not None:
            new = live._sole(changed).get(holder)
            self.functions = [
                (function, new)
                for function in _functions(str(TOP / slip.path)).get(holder, ())
                if new is not None and new.co_freevars == function.__code__.co_freevars
            ]
        else:
            self._by_import(slip, changed)

    def _by_import(self, slip: code.Slip, changed: types.CodeType) -> None:
        name = slip.path.removesuffix(".py").replace("/", ".")
        own = vars(sys.modules[name])
        made = types.ModuleType(name)
        made.__package__, made.__file__ = name.rpartition(".")[0], str(TOP / slip.path)
        try:
            exec(changed, vars(made))
        except Exception:
            return
        for key, value in vars(made).items():
            old = own.get(key)
            plain = not isinstance(value, types.FunctionType | type | types.ModuleType)
            if not key.startswith("__") and plain and repr(old) != repr(value):
                self.names += [
                    (vars(module), each, value)
                    for module in list(sys.modules.values())
                    if getattr(module, "__name__", "").startswith("hts.checking")
                    for each, there in list(vars(module).items())
                    if there is old and (module.__name__ == name or each == key)
                ]

    @contextmanager
    def put(self) -> Iterator[None]:
        before = [function.__code__ for function, _ in self.functions]
        names = [where[name] for where, name, _ in self.names]
        for function, new in self.functions:
            function.__code__ = new
        for where, name, value in self.names:
            where[name] = value
        _forget()
        try:
            yield
        finally:
            for (function, _), old in zip(self.functions, before, strict=True):
                function.__code__ = old
            for (where, name, _), there in zip(self.names, names, strict=True):
                where[name] = there
            _forget()


def _changed(slip: code.Slip) -> types.CodeType:
    lines = (TOP / slip.path).read_text("utf-8").split("\n")
    line = lines[slip.line - 1].encode()
    lines[slip.line - 1] = (line[: slip.start] + slip.after.encode() + line[slip.end :]).decode()
    return compile("\n".join(lines), str(TOP / slip.path), "exec", dont_inherit=True)


@functools.cache
def _functions(file: str) -> dict[live.Key, list[types.FunctionType]]:
    found: dict[live.Key, list[types.FunctionType]] = {}
    for thing in gc.get_objects():
        if isinstance(thing, types.FunctionType) and thing.__code__.co_filename == file:
            found.setdefault(live.key(thing.__code__), []).append(thing)
    return found


@lru_cache(maxsize=1)
def _kept() -> list[functools._lru_cache_wrapper[object]]:
    return [
        thing
        for name, module in sys.modules.items()
        if name.startswith("hts.checking")
        for thing in vars(module).values()
        if isinstance(thing, functools._lru_cache_wrapper)
        and str(thing.__module__).startswith("hts.checking")
        and not str(thing.__module__).endswith(("catalogue", "former"))
    ]


def _forget() -> None:
    for thing in _kept():
        thing.cache_clear()


@functools.cache
def helpers_of(path: str) -> frozenset[str]:
    """The files of helpers that a file of a rule or a helper uses, itself or by way of others."""
    found: set[str] = set()
    for node in ast.walk(ast.parse((TOP / path).read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(
            "hts.checking.rules."
        ):
            other = f"{(node.module or '').replace('.', '/')}.py"
            if other != path and (TOP / other).exists():
                found |= {other} if other.startswith(HELPERS) else set()
                found |= helpers_of(other)
    return frozenset(found)


def slips_of(rule: Rule) -> list[code.Slip]:
    """Of all helpers of a rule."""
    return [slip for path in sorted(helpers_of(path_of(rule))) for slip in _slips(path)]


@functools.cache
def _slips(path: str) -> list[code.Slip]:
    importlib.import_module(path.removesuffix(".py").replace("/", "."))
    return code.slips(TOP, path)


@functools.cache
def living(slip: code.Slip) -> Living:
    return Living(slip)
