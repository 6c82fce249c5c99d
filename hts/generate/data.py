"""Compile the YAML facts in hts/base/data to JSON, each validated against its JSON Schema first."""

import glob
import json
import os
from collections.abc import Hashable, Iterable
from typing import Any

import yaml
from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError, best_match

from hts.base.text.yaml_loader import yaml_loader
from hts.generate import GenerateError


class FactLoader(yaml_loader()):  # type: ignore[misc]
    """A safe loader that leaves dates as text and refuses a key given twice."""

    def construct_mapping(self, node: yaml.MappingNode, deep: bool = False) -> dict[Hashable, Any]:
        """Build a mapping as PyYAML does, but a repeated key is an error, not the last one wins."""
        seen = set()
        for key_node, _ in node.value:
            key = key_node.value
            if key in seen:
                raise yaml.constructor.ConstructorError(
                    None, None, f"the key {key!r} is given twice", key_node.start_mark
                )
            seen.add(key)
        made: dict[Hashable, Any] = super().construct_mapping(node, deep)
        return made


FactLoader.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in resolvers if tag != "tag:yaml.org,2002:timestamp"]
    for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


def generate(root: str) -> dict[str, str]:
    """The compiled text of every hts/base/data/*.yaml and hts/base/data/books/*.yaml by path."""
    files: dict[str, str] = {}
    for path in _sources(root, "hts/base/data/*.yaml"):
        name = _stem(path)
        files[f"hts/base/data/compiled/{name}.json"] = compiled(
            root, path, f"hts/base/data/{name}.schema.json"
        )
    for path in _sources(root, "hts/base/data/books/*.yaml"):
        target = f"hts/base/data/compiled/books/{_stem(path)}.json"
        files[target] = compiled(root, path, "hts/base/data/book.schema.json")
    return files


def compiled(root: str, path: str, schema_path: str) -> str:
    """Return the JSON text of the YAML file `path`. Raises GenerateError saying where and why."""
    try:
        with open(os.path.join(root, path), encoding="utf-8") as file:
            text = file.read()
        with open(os.path.join(root, schema_path), encoding="utf-8") as file:
            schema = json.load(file)
        data = yaml.load(text, Loader=FactLoader)
    except FileNotFoundError as error:
        missing = os.path.relpath(error.filename, root).replace(os.sep, "/")
        raise GenerateError(f"{path}: needs {missing}, which is not there") from None
    except yaml.YAMLError as error:
        raise GenerateError(f"{path}: {error}") from None
    except json.JSONDecodeError as error:
        raise GenerateError(f"{schema_path}: {error}") from None
    errors = sorted(Draft202012Validator(schema).iter_errors(data), key=lambda e: str(e.json_path))
    if errors:
        raise GenerateError("\n".join(_explained(path, text, error) for error in errors))
    return json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=False) + "\n"


def _explained(path: str, text: str, error: ValidationError) -> str:
    """Return "file:line: place: reason" for one breach, the innermost one where there are many."""
    inner = best_match([error]) or error
    place = "/".join(str(step) for step in inner.absolute_path) or "the whole file"
    return f"{path}:{_line(text, inner.absolute_path)}: {place}: {inner.message}"


def _line(text: str, steps: Iterable[str | int]) -> int:
    """Return the line (from 1) of the YAML node that `steps` lead to."""
    node = yaml.compose(text, Loader=FactLoader)
    for step in steps:
        if isinstance(node, yaml.SequenceNode):
            node = node.value[int(step)]
        elif isinstance(node, yaml.MappingNode):
            node = next((value for key, value in node.value if key.value == str(step)), node)
    return node.start_mark.line + 1 if node is not None else 1


def _sources(root: str, pattern: str) -> list[str]:
    found = glob.glob(os.path.join(root, *pattern.split("/")))
    return sorted(os.path.relpath(path, root).replace(os.sep, "/") for path in found)


def _stem(path: str) -> str:
    return os.path.splitext(os.path.basename(path))[0]
