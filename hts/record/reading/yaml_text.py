"""Small YAML files as mappings, lists and texts, each with its place.

Nothing is converted: `14:03` stays a text, which YAML 1.1 would make a number. Anchors are refused,
for a short file can stand for an endless one by them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from hts.base.text.yaml_loader import yaml_loader
from hts.record.errors import RecordError, missing_extra
from hts.record.reading.decode import decode
from hts.record.reading.source import regular

if TYPE_CHECKING:
    import yaml


#: Bytes of a map or a list of events.
LARGEST = 1_000_000


class _Mark(Protocol):
    line: int
    column: int


class Text(str):
    """A scalar; `place` is file:line:column."""

    place: str


class List(list["Value"]):
    place: str


class Mapping(dict[str, "Value"]):
    place: str
    #: Place of each key.
    keys_at: dict[str, str]


Value = Text | List | Mapping


def load(path: str, name: str) -> Value:
    """Raises RecordError for what is not readable, not YAML, or has a key twice."""
    try:
        import yaml
    except ImportError:  # pragma: no cover - the extra is installed for the tests
        raise missing_extra("pyyaml") from None
    data = decode(regular(path, LARGEST), name)[0]
    try:
        for event in yaml.parse(data, Loader=yaml_loader()):
            if isinstance(event, yaml.AliasEvent):
                place = _place(name, event.start_mark)
                raise RecordError(place, "it uses an anchor", "write the value out")
        node = yaml.compose(data, Loader=yaml_loader())
    except yaml.MarkedYAMLError as error:
        place = _place(name, error.problem_mark)
        raise RecordError(place, error.problem or "it is not YAML", "correct it") from None
    except (yaml.YAMLError, RecursionError):
        raise RecordError(name, "it is not YAML", "correct it") from None
    if node is None:
        raise RecordError(name, "it is empty", "write it, or remove it")
    return _value(node, name)


def _value(node: yaml.Node, name: str) -> Value:
    import yaml

    place = _place(name, node.start_mark)
    if isinstance(node, yaml.ScalarNode):
        text = Text(node.value)
        text.place = place
        return text
    if isinstance(node, yaml.SequenceNode):
        items = List(_value(item, name) for item in node.value)
        items.place = place
        return items
    mapping = Mapping()
    mapping.place, mapping.keys_at = place, {}
    for key, value in node.value:
        at = _place(name, key.start_mark)
        if not isinstance(key, yaml.ScalarNode):
            raise RecordError(at, "a key is not a word", "write one word before the colon")
        if key.value in mapping:
            raise RecordError(at, f"{key.value!r} stands twice", "keep one of them")
        mapping[key.value] = _value(value, name)
        mapping.keys_at[key.value] = at
    return mapping


def _place(name: str, mark: _Mark | None) -> str:
    if mark is None:
        return name
    return f"{name}:{mark.line + 1}:{mark.column + 1}"
