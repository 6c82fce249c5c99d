"""Rules with a slip in them, and rules that note what they compare, beside those in force."""

from __future__ import annotations

import ast
import math
import sys
import types
from collections.abc import Callable
from pathlib import Path
from typing import Any

from hts.base.quantities import Quantity
from hts.base.quantities.clock import ClockPosition
from hts.checking.rules.rule import Rule
from tests.mutants import code

TOP = Path(__file__).parents[2]


def path_of(rule: Rule) -> str:
    """Of its file, from the top."""
    return Path(str(sys.modules[rule.check.__module__].__file__)).relative_to(TOP).as_posix()


def slipped(rule: Rule, slip: code.Slip, text: str) -> Rule | None:
    """The rule with a slip; None where it cannot be imported, or has other examples then."""
    lines = text.split("\n")
    line = lines[slip.line - 1].encode()
    lines[slip.line - 1] = (line[: slip.start] + slip.after.encode() + line[slip.end :]).decode()
    try:
        made = _made(slip.path, compile("\n".join(lines), slip.path, "exec"))
    except Exception:
        return None
    return made if (made.bad, made.good) == (rule.bad, rule.good) else None


def _made(path: str, compiled: types.CodeType, **known: object) -> Rule:
    name = path.removesuffix(".py").replace("/", ".")
    module = types.ModuleType(name)
    module.__package__, module.__file__ = name.rpartition(".")[0], str(TOP / path)
    vars(module).update(known)
    exec(compiled, vars(module))
    rule: Rule = module.RULE
    rule.family = Path(path).parent.name
    return rule


class Noting:
    """A rule that notes how each of its conditions came out, and the figures it compared."""

    def __init__(self, rule: Rule) -> None:
        path = path_of(rule)
        tree = _Marked().visit(ast.parse((TOP / path).read_text("utf-8")))
        compiled = compile(ast.fix_missing_locations(tree), path, "exec")
        #: The number of a place, with the line as its hundreds, and how it came out.
        self.came_out: set[tuple[int, object]] = set()
        self.figures: list[tuple[int, float, float]] = []
        self.rule = _made(path, compiled, _noted=self._noted, _compared=self._compared)

    def begin(self) -> None:
        self.came_out, self.figures = set(), []

    def _noted(self, place: int, value: Any) -> Any:
        self.came_out.add((place, bool(value)))
        return value

    def _compared(self, place: int, left: Any, right: Any, compare: Callable[..., Any]) -> Any:
        one, other = _figure(left), _figure(right)
        if one is not None and other is not None:
            self.came_out.add((place, (one > other) - (one < other)))
            self.figures.append((place // 100, one, other))
        return self._noted(place, compare(left, right))


def _figure(value: object) -> float | None:
    if isinstance(value, Quantity):
        value = value.value
    if isinstance(value, ClockPosition):
        value = value.degrees
    try:
        figure = float(value) if not isinstance(value, str | bool) else math.inf  # type: ignore[arg-type]
    except (TypeError, ValueError, OverflowError):
        return None
    return figure if math.isfinite(figure) else None


class _Marked(ast.NodeTransformer):
    """Each condition of a function noted by the number of its place."""

    def __init__(self) -> None:
        self.places = 0
        self.depth = 0

    def _place(self, node: ast.expr) -> ast.Constant:
        self.places += 1
        return ast.Constant(100 * node.lineno + self.places % 100)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        self.depth += 1
        node.body = [self.visit(each) for each in node.body]
        self.depth -= 1
        return node

    def visit_Assert(self, node: ast.Assert) -> ast.AST:
        return node

    def visit_Compare(self, node: ast.Compare) -> ast.AST:
        self.generic_visit(node)
        if not self.depth:
            return node
        sides = [node.left, *node.comparators]
        each = [
            self._sides(node, left, sign, right)
            for left, sign, right in zip(sides, node.ops, sides[1:], strict=False)
        ]
        return each[0] if len(each) == 1 else ast.copy_location(ast.BoolOp(ast.And(), each), node)

    def _sides(
        self, node: ast.Compare, left: ast.expr, sign: ast.cmpop, right: ast.expr
    ) -> ast.expr:
        names = ["left", "right"]
        arguments = ast.arguments([], [ast.arg(each) for each in names], None, [], [], None, [])
        one, other = (ast.Name(each, ast.Load()) for each in names)
        inner = ast.Lambda(arguments, ast.Compare(one, [sign], [other]))
        noted = ast.Name("_compared", ast.Load())
        call = ast.Call(noted, [self._place(node), left, right, inner], [])
        return ast.copy_location(call, node)

    def visit_BoolOp(self, node: ast.BoolOp) -> ast.AST:
        self.generic_visit(node)
        if self.depth:
            node.values = [self._call(each) for each in node.values]
        return node

    def visit_UnaryOp(self, node: ast.UnaryOp) -> ast.AST:
        self.generic_visit(node)
        return self._call(node) if self.depth and isinstance(node.op, ast.Not) else node

    def visit_If(self, node: ast.If) -> ast.AST:
        self.generic_visit(node)
        if self.depth:
            node.test = self._call(node.test)
        return node

    def visit_IfExp(self, node: ast.IfExp) -> ast.AST:
        self.generic_visit(node)
        if self.depth:
            node.test = self._call(node.test)
        return node

    def _call(self, value: ast.expr) -> ast.Call:
        noted = ast.Call(ast.Name("_noted", ast.Load()), [self._place(value), value], [])
        return ast.copy_location(noted, value)
