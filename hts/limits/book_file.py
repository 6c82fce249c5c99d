"""A rule book of a repository: YAML text into the data of a book, or into what is wrong where.

It is held to the schema and the checks of the books that ship with the package, and to their names.
"""

from __future__ import annotations

import json
import os
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

import hts.base.data
from hts.base.text.yaml_loader import yaml_loader
from hts.limits.books import Book, books, from_data
from hts.limits.soundness import Problem, problems

if TYPE_CHECKING:
    import yaml
    from jsonschema.exceptions import ValidationError

#: Nodes of a book once its aliases are followed; the largest book of the package has 4,000. A short
#: file can stand for an endless one by aliases.
MOST_NODES = 200_000
#: Letters of a book; the largest of the package has 33,000.
LONGEST = 300_000
_DEEPEST = 20
#: What stands in a skeleton where the user's own words belong.
TO_FILL_IN = "…"


class Fault(NamedTuple):
    """What is wrong, and from where to where in the text (offsets in code points)."""

    message: str
    start: int
    end: int
    help: str = ""


class BookFile(NamedTuple):
    """A book as read; `data` is None where there are faults. `id` is "" where it has none.

    `rows` tells from where to where the id of each row stands in the text.
    """

    id: str
    data: Any
    faults: tuple[Fault, ...]
    rows: Mapping[str, tuple[int, int]] = {}

    def book(self, edition: str | None) -> Book:
        """The book in an edition. Raises UnknownEdition."""
        return from_data(self.data, edition)


class MissingExtra(RuntimeError):
    """The libraries that read books of one's own are not installed."""


def read(text: str) -> BookFile:
    """The book that a text describes, or its faults in the order they stand. Raises MissingExtra.

    `text` is YAML: a safe subset without dates, in which no key stands twice.
    """
    try:
        import jsonschema  # noqa: F401
        import yaml
    except ImportError:
        raise MissingExtra(
            "a rule book of your own needs two more libraries; run: pip install 'hts[books]'"
        ) from None
    if len(text) > LONGEST:
        message = f"the book is longer than {LONGEST:,} letters"
        return _faulty("", [Fault(message, 0, _line_end(text, 0), "part it into several books")])
    try:
        node = yaml.compose(text, Loader=yaml_loader())
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        at = min(mark.index, len(text)) if mark is not None else 0
        message = f"it is not YAML: {error.problem or error.context or 'it cannot be read'}"
        return _faulty("", [Fault(message, at, _line_end(text, at))])
    except (yaml.YAMLError, RecursionError) as error:
        message = str(error).partition("\n")[0]
        return _faulty("", [Fault(f"it is not YAML: {message}", 0, _line_end(text, 0))])
    if node is None:
        return _faulty("", [Fault("the file is empty", 0, 0, _SKELETON_HELP)])
    found = _unfit(node) or _open(node)
    if found:
        return _faulty("", found)
    data = _plain(node)
    known = data.get("id", "") if isinstance(data, dict) else ""
    id = known if isinstance(known, str) else ""
    found = [_breach(error, node, text, data) for error in _breaches(data)]
    if not found:
        found = [_located(problem, node, text) for problem in problems(data)]
    if not found and id in books():
        start, end = _place(node, ("id",))
        message = f"{id} is the name of a book that ships with the program"
        found = [Fault(message, start, end, "give your book a name of its own")]
    if found:
        return _faulty(id, sorted(found, key=lambda fault: fault.start))
    places = {
        row["id"]: _place(node, ("rows", number, "id")) for number, row in enumerate(data["rows"])
    }
    return BookFile(id, data, (), places)


_SKELETON_HELP = "hts books --new FILE.yaml writes a book to begin with"


def _faulty(id: str, faults: Sequence[Fault]) -> BookFile:
    return BookFile(id, None, tuple(dict.fromkeys(faults)))


def _unfit(root: yaml.Node) -> list[Fault]:
    """Keys that stand twice or are no words, and aliases that lead round or blow the book up."""
    import yaml

    found: list[Fault] = []
    sizes: dict[int, int] = {}
    open_nodes: set[int] = set()

    def size(node: yaml.Node, depth: int) -> int:
        if id(node) in sizes:
            return sizes[id(node)]
        if id(node) in open_nodes or depth > _DEEPEST:
            found.append(_fault_at(node, "it stands within itself, or too deep"))
            return 0
        open_nodes.add(id(node))
        total = 1
        if isinstance(node, yaml.MappingNode):
            seen = set()
            for key, value in node.value:
                if not isinstance(key, yaml.ScalarNode):
                    found.append(_fault_at(key, "a key is not a word"))
                elif key.value in seen:
                    found.append(_fault_at(key, f"the key {key.value!r} stands twice"))
                else:
                    seen.add(key.value)
                total += size(value, depth + 1)
        elif isinstance(node, yaml.SequenceNode):
            total += sum(size(item, depth + 1) for item in node.value)
        open_nodes.discard(id(node))
        sizes[id(node)] = total
        return total

    if size(root, 0) > MOST_NODES and not found:
        found.append(_fault_at(root, "it is too long once its aliases are followed"))
    return found


def _open(node: yaml.Node) -> list[Fault]:
    """The places of a skeleton that nobody has filled in yet."""
    import yaml

    if isinstance(node, yaml.MappingNode):
        return [fault for _, value in node.value for fault in _open(value)]
    if isinstance(node, yaml.SequenceNode):
        return [fault for item in node.value for fault in _open(item)]
    return [_fault_at(node, "it is still to be filled in")] if TO_FILL_IN in node.value else []


def _plain(node: yaml.Node) -> Any:
    """The data of a node; dates, numbers in base 60 and the like stay texts."""
    import yaml

    if isinstance(node, yaml.MappingNode):
        return {key.value: _plain(value) for key, value in node.value}
    if isinstance(node, yaml.SequenceNode):
        return [_plain(item) for item in node.value]
    kind = node.tag.rpartition(":")[2]
    if kind == "null":
        return None
    if kind == "bool":
        return node.value.lower() in ("true", "yes", "on")
    if kind in ("int", "float"):
        try:
            return float(node.value)
        except ValueError:
            return node.value
    return node.value


def _breaches(data: Any) -> list[ValidationError]:
    from jsonschema import Draft202012Validator
    from jsonschema.exceptions import best_match

    path = os.path.join(os.path.dirname(hts.base.data.__file__), "book.schema.json")
    with open(path, encoding="utf-8") as file:
        schema = json.load(file)
    found = Draft202012Validator(schema).iter_errors(data)
    return [best_match([error]) or error for error in found]


def _breach(error: ValidationError, node: yaml.Node, text: str, data: Any) -> Fault:
    steps = tuple(error.absolute_path)
    message, help = _told(error)
    help = _of_formula(error, steps) or help
    message = f"{_words(steps, data)}{message}"
    if error.validator == "additionalProperties" and isinstance(error.instance, dict):
        _, unknown = _keys(error)
        if unknown:
            start, end = _key_place(node, (*steps, unknown[0]))
            return Fault(message, start, end, help)
    start, end = _place(node, steps)
    # Of a whole row its first line is marked.
    return Fault(message, start, min(end, _line_end(text, start)), help)


def _told(error: ValidationError) -> tuple[str, str]:
    """The breach in words of the page that tells how to write a book, and a remedy."""
    from difflib import get_close_matches

    kind = error.validator
    value: Any = error.instance
    wanted: Any = error.validator_value
    if kind == "required":
        lacking = [name for name in wanted if name not in value]
        *others, last = lacking
        return (
            f"{', '.join(others)} and {last} are missing" if others else f"{last} is missing"
        ), ""
    if kind == "additionalProperties":
        known, unknown = _keys(error)
        near = get_close_matches(unknown[0], known, n=1) if unknown else []
        help = f"did you mean {near[0]}?" if near else f"there are: {', '.join(known)}"
        no_key = "are not keys" if len(unknown) > 1 else "is not a key"
        return f"{', '.join(unknown)} {no_key} of this place", help
    if kind == "enum":
        return f"{value!r} is given where one of {', '.join(wanted)} is expected", ""
    if kind == "type":
        words = {"string": "a text", "object": "a block of keys with values", "array": "a list"}
        help = (
            f'put it in quotes: "{value:g}"'
            if isinstance(value, float) and wanted == "string"
            else ""
        )
        given = f"{value:g}" if isinstance(value, float) else repr(value)
        return f"{words.get(wanted, 'another kind')} is expected, not {given}", help
    if kind == "anyOf" and isinstance(value, dict):
        return "the row has no demand", "write at_least, at_most, between, is or status"
    if kind == "pattern":
        return (
            f"{value!r} is not written as expected here",
            "an id is small letters, digits, hyphens and dots; an edition four digits in quotes",
        )
    if isinstance(value, float) and kind in ("oneOf", "anyOf"):
        return f"{value:g} is given where a text is expected", f'put it in quotes: "{value:g}"'
    choices = [c for each in error.context or () if each.validator == "enum" for c in _list(each)]
    if choices:
        return f"{value!r} is given where one of {', '.join(choices)} is expected", ""
    return error.message, ""


#: Parts of a row that are formulas.
_FORMULAS = ("at_least", "at_most", "between", "is", "above", "within", "when")


def _of_formula(error: ValidationError, steps: Sequence[str | int]) -> str:
    """A remedy for what YAML makes of a formula: a bare number, or one cut at its commas."""
    if len(steps) < 3 or steps[2] not in _FORMULAS:
        return ""
    value: Any = error.instance
    if isinstance(value, float):
        return f'write its unit beside it, such as "{value:g} degC"; a count in quotes: "{value:g}"'
    if error.validator == "additionalProperties":
        return 'put a formula that has commas into quotes: {SI: "max(…, …)", US: "…"}'
    return ""


def _list(error: ValidationError) -> list[str]:
    return [str(choice) for choice in error.validator_value]  # type: ignore[union-attr]


def _words(steps: Sequence[str | int], data: Any) -> str:
    """A place as people say it: `row hold-p1, basis: `."""
    words = [str(step) for step in steps if isinstance(step, str)]
    if len(steps) > 1 and steps[0] == "rows" and isinstance(steps[1], int):
        row = data["rows"][steps[1]]
        id = row.get("id") if isinstance(row, dict) else None
        words[0] = f"row {id}" if isinstance(id, str) else f"row {steps[1] + 1}"
    return f"{', '.join(words)}: " if words else ""


def _keys(error: ValidationError) -> tuple[list[str], list[str]]:
    """The keys a place can have, and those it has beyond them."""
    schema: Any = error.schema
    known = list(schema.get("properties", {}))
    return known, [key for key in error.instance if key not in known]  # type: ignore[union-attr]


def _located(problem: Problem, node: yaml.Node, text: str) -> Fault:
    start, end = _place(node, problem.steps)
    if problem.start is None or problem.end is None:
        return Fault(f"{problem.place}: {problem.message}", start, min(end, _line_end(text, start)))
    quoted = text[start : start + 1] in ("'", '"')
    first, last = start + problem.start + quoted, start + problem.end + quoted
    # A formula that was folded or escaped is marked whole.
    if "\n" in text[start:end] or "\\" in text[start:end] or last > end:
        first, last = start, min(end, _line_end(text, start))
    last = max(last, first + 1)
    return Fault(
        f"{problem.place}: {problem.message}", first, last, _unit(problem, text[first:last])
    )


#: What people write for units in other texts.
_UNITS = {
    "C": "degC",
    "F": "degF",
    "°C": "degC",
    "°F": "degF",
    "deg": "degC",
    "inch": "in",
    "inches": "in",
}


def _unit(problem: Problem, marked: str) -> str:
    """A remedy for a figure without its unit, or with one as it is written elsewhere."""
    if marked in _UNITS:
        return f"write {_UNITS[marked]}"
    if "a number" in problem.message:
        return "every figure has its unit: 5600 degC/h * 1 mm / t, not 5600/t"
    return ""


def _place(node: yaml.Node, steps: Sequence[str | int]) -> tuple[int, int]:
    """From where to where the value stands that the steps lead to, as far as they lead."""
    found = _walk(node, steps)
    return found.start_mark.index, found.end_mark.index


def _key_place(node: yaml.Node, steps: Sequence[str | int]) -> tuple[int, int]:
    parent = _walk(node, steps[:-1])
    for key, _ in parent.value:
        if key.value == steps[-1]:
            return key.start_mark.index, key.end_mark.index
    return parent.start_mark.index, parent.end_mark.index


def _walk(node: yaml.Node, steps: Sequence[str | int]) -> yaml.Node:
    import yaml

    for step in steps:
        if isinstance(node, yaml.SequenceNode) and int(step) < len(node.value):
            node = node.value[int(step)]
        elif isinstance(node, yaml.MappingNode):
            node = next((value for key, value in node.value if key.value == str(step)), node)
    return node


def _fault_at(node: yaml.Node, message: str) -> Fault:
    return Fault(message, node.start_mark.index, max(node.end_mark.index, node.start_mark.index))


def _line_end(text: str, at: int) -> int:
    end = text.find("\n", at)
    return len(text) if end < 0 else end
