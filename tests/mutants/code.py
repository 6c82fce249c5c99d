"""One small slip in a line of Python: what a tired hand would write."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple


class Slip(NamedTuple):
    """`path` from the top, `line` from 1, what stood `before` and stands `after`."""

    path: str
    line: int
    start: int
    end: int
    before: str
    after: str


_COMPARED = {ast.Lt: "<=", ast.LtE: "<", ast.Gt: ">=", ast.GtE: ">", ast.Eq: "!=", ast.NotEq: "==",
             ast.Is: "is not", ast.IsNot: "is", ast.In: "not in", ast.NotIn: "in"}  # fmt: skip
_SIGNS = {ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==", ast.NotEq: "!=",
          ast.Is: "is", ast.IsNot: "is not", ast.In: "in", ast.NotIn: "not in"}  # fmt: skip
_WORKED = {ast.Add: ("+", "-"), ast.Sub: ("-", "+"), ast.Mult: ("*", "/"), ast.Div: ("/", "*"),
           ast.FloorDiv: ("//", "*"), ast.Mod: ("%", "*")}  # fmt: skip
_CALLED = {"min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor"}


def slips(root: Path, path: str) -> list[Slip]:
    """Every slip of one file, outside docstrings and what `_skipped` names."""
    text = (root / path).read_text(encoding="utf-8")
    lines = text.splitlines()
    tree = ast.parse(text)
    skipped = _skipped(tree)
    found = [
        slip
        for node in ast.walk(tree)
        if id(node) not in skipped
        for slip in _of(node, lines, path)
    ]
    return sorted(set(found))


def _skipped(tree: ast.Module) -> set[int]:
    """Nodes that change no behaviour: annotations, what stands under TYPE_CHECKING or is asserted
    for the types, how much is kept, and that two lengths are the same."""
    out: set[int] = set()
    for node in ast.walk(tree):
        parts: list[ast.AST | None] = []
        if isinstance(node, ast.AnnAssign):
            parts = [node.annotation]
        elif isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            arguments = node.args
            each = [*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs]
            parts = [node.returns, *(a.annotation for a in each)]
        elif isinstance(node, ast.Assert) or (
            isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"
        ):
            parts = [node]
        elif isinstance(node, ast.keyword) and node.arg in ("strict", "maxsize"):
            parts = [node.value]
        for part in parts:
            if part is not None:
                out |= {id(inner) for inner in ast.walk(part)}
    return out


def _of(node: ast.AST, lines: list[str], path: str) -> Iterator[Slip]:
    if isinstance(node, ast.Compare):
        left = node.left
        for sign, right in zip(node.ops, node.comparators, strict=True):
            if type(sign) in _SIGNS:
                yield from _between(
                    left, right, _SIGNS[type(sign)], _COMPARED[type(sign)], lines, path
                )
            left = right
    elif isinstance(node, ast.BinOp) and type(node.op) in _WORKED:
        if not _text(node.left) and not _text(node.right):
            yield from _between(node.left, node.right, *_WORKED[type(node.op)], lines, path)
    elif isinstance(node, ast.BoolOp):
        words = ("and", "or") if isinstance(node.op, ast.And) else ("or", "and")
        if len(node.values) == 2:
            yield from _between(*node.values, *words, lines, path)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield _at(path, lines, node.lineno, node.col_offset, "not ", "")
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        if node.func.id in _CALLED:
            yield _at(path, lines, node.lineno, node.func.col_offset, node.func.id,
                      _CALLED[node.func.id])  # fmt: skip
    elif isinstance(node, ast.Constant) and node.end_lineno == node.lineno:
        source = _cut(lines, node)
        if isinstance(node.value, bool):
            yield _at(path, lines, node.lineno, node.col_offset, source, str(not node.value))
        elif isinstance(node.value, int | float):
            whole = isinstance(node.value, int) or not node.value
            after = repr(node.value + 1 if whole else node.value * 1.1)
            yield _at(path, lines, node.lineno, node.col_offset, source, after)


def _text(node: ast.AST) -> bool:
    return isinstance(node, ast.JoinedStr) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str)
    )


def _between(
    left: ast.expr, right: ast.expr, before: str, after: str, lines: list[str], path: str
) -> Iterator[Slip]:
    """The sign between two expressions, where it stands in one line with the end of the first."""
    if left.end_lineno is None or left.end_col_offset is None:
        return
    for number, start in ((left.end_lineno, left.end_col_offset), (right.lineno, 0)):
        line = lines[number - 1].encode()
        stop = right.col_offset if number == right.lineno else len(line)
        at = line[start:stop].find(before.encode())
        if at >= 0:
            yield Slip(path, number, start + at, start + at + len(before.encode()), before, after)
            return


def _cut(lines: list[str], node: ast.Constant) -> str:
    return lines[node.lineno - 1].encode()[node.col_offset : node.end_col_offset].decode()


def _at(path: str, lines: list[str], line: int, start: int, before: str, after: str) -> Slip:
    del lines
    return Slip(path, line, start, start + len(before.encode()), before, after)


def apply(root: Path, slip: Slip) -> str:
    """Makes the slip in the tree below `root`; returns the text that stood there."""
    file = root / slip.path
    text = file.read_text(encoding="utf-8")
    lines = text.split("\n")
    line = lines[slip.line - 1].encode()
    assert line[slip.start : slip.end].decode() == slip.before, slip
    lines[slip.line - 1] = (line[: slip.start] + slip.after.encode() + line[slip.end :]).decode()
    file.write_text("\n".join(lines), encoding="utf-8")
    return text


def restore(root: Path, slip: Slip, before: str) -> None:
    """Puts the text back that stood there before."""
    (root / slip.path).write_text(before, encoding="utf-8")
