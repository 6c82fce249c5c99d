"""One figure of the data changed: a number of a rule book, a grade, a pipe or a thermocouple."""

from __future__ import annotations

import json
import re
from pathlib import Path

import yaml

from hts.generate.data import FactLoader
from tests.mutants.code import Slip

_NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?![\w.])")
#: Words about a value, not the value: a changed year, page or name of a standard limits nothing.
_ABOUT = {
    "edition", "editions", "source", "sources", "page", "pages", "paragraph", "clause", "seen",
    "title", "note", "notes", "because", "url", "where", "basis", "name", "names", "says",
    "standard", "standards", "aliases", "product", "cite", "about", "quotations",
}  # fmt: skip


def slips(root: Path, path: str) -> list[Slip]:
    """Every number that limits something, a tenth greater or one more."""
    text = (root / path).read_text(encoding="utf-8")
    lines = text.splitlines()
    found: list[Slip] = []
    _walk(yaml.compose(text), lines, path, found)
    return sorted(set(found))


def _walk(node: yaml.Node | None, lines: list[str], path: str, found: list[Slip]) -> None:
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            if key.value not in _ABOUT:
                _walk(value, lines, path, found)
    elif isinstance(node, yaml.SequenceNode):
        for item in node.value:
            _walk(item, lines, path, found)
    elif isinstance(node, yaml.ScalarNode) and node.start_mark.line == node.end_mark.line:
        number = node.start_mark.line
        line = lines[number]
        for match in _NUMBER.finditer(line, node.start_mark.column, node.end_mark.column):
            before = match.group()
            after = str(int(before) + max(1, int(before) // 10)) if "." not in before else (
                repr(round(float(before) * 1.1, 6)))  # fmt: skip
            start = len(line[: match.start()].encode())
            found.append(Slip(path, number + 1, start, start + len(before.encode()), before, after))


def compiled(root: Path, slip: Slip) -> None:
    """The form of a changed file that is read at run time; one that YAML cannot read stays."""
    name = slip.path.removeprefix("hts/base/data/").removesuffix(".yaml")
    text = (root / slip.path).read_text(encoding="utf-8")
    made = json.dumps(yaml.load(text, Loader=FactLoader), ensure_ascii=False)
    (root / f"hts/base/data/compiled/{name}.json").write_text(made, encoding="utf-8")
