"""Reads a configuration: every key known, every value checked, each with its place."""

from __future__ import annotations

import json
import os
import re
import tomllib
from collections.abc import Iterator
from typing import Any

from hts.base.text import BYTE_ORDER_MARK, Source
from hts.base.text.reading import name_below, root_of
from hts.checking.configuration.allowed import forbidden, none_runs, users_file
from hts.checking.configuration.chosen import Chooser
from hts.checking.configuration.configuration import Configuration, ConfigurationError
from hts.checking.configuration.keys import KEYS, TABLES
from hts.checking.configuration.places import Path
from hts.checking.configuration.reading import Reading
from hts.language.vocabulary.suggest import nearest

_SHARED = "pyproject.toml"
_AT = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")


def read(path: str, text: str) -> Configuration:
    """The configuration in the text of a file. Raises ConfigurationError."""
    name = name_below(os.path.realpath(path), root_of(path))
    source = Source(text.removeprefix(BYTE_ORDER_MARK), name, path)
    root: Path = ("tool", "hts") if os.path.basename(path) == _SHARED else ()
    try:
        data = _table(source, root)
        reading = Reading(source, root)
    except RecursionError:
        raise ConfigurationError(name, "values are nested too deeply", "") from None
    values: dict[str, Any] = {}
    origin: dict[str, str] = {}
    for key, at, value in _entries(reading, data):
        values[key] = KEYS[key].read(reading, at, value)
        origin[key] = reading.place(at)
    select, ignore = values.get("select", ()), values.get("ignore", ())
    severity, packs = values.get("severity", {}), values.get("rule-packs", ())
    if packs:
        packs = _that_may_run(reading, (*root, "rule-packs"), packs, path)
    chooser = Chooser(reading, packs)
    for rule in severity:
        origin[f"severity.{rule}"] = reading.place((*root, "severity", rule))
    without = tuple(p for p in values.get("rule-packs", ()) if p not in packs)
    made = Configuration(
        path=path,
        packs_left_out=without,
        select=select,
        ignore=ignore,
        ignored=chooser.left_out(select, ignore),
        severity=severity,
        severities=chooser.severities(severity),
        exclude=values.get("exclude", ()),
        books=values.get("books", ()),
        rule_packs=packs,
        units=values.get("paper.units"),
        sheet=values.get("paper.sheet", Configuration().sheet),
        company=values.get("paper.company", ""),
        logo=values.get("paper.logo", ""),
        font=values.get("paper.font"),
        today=values.get("today"),
        labels={
            key.removeprefix("labels.").replace("-", "_"): value
            for key, value in values.items()
            if key.startswith("labels.")
        },
        origin=origin,
    )
    return made._replace(digest=_digest(made))


def _that_may_run(reading: Reading, at: Path, packs: tuple[str, ...], path: str) -> tuple[str, ...]:
    """The packs, before any code of theirs is looked at."""
    if none_runs():
        return ()
    for number, pack in enumerate(packs):
        if forbidden((pack,), path):
            raise reading.wrong(
                (*at, number),
                f"rule pack {pack} may not run: settings of a repository are no consent",
                f"if you trust what is installed under that name, say --allow-pack {pack}, or "
                f'write allow-packs = ["{pack}"] in {users_file()}; --no-packs goes on without it',
            )
    return packs


def _table(source: Source, root: Path) -> dict[str, Any]:
    """The table that holds the keys."""
    try:
        data: Any = tomllib.loads(source.text)
    except ValueError as error:  # TOMLDecodeError, or a number of too many digits
        raise _not_toml(source, str(error)) from None
    for number, part in enumerate(root):
        data = data.get(part) if isinstance(data, dict) else None
        if data is None:
            missing = ".".join(map(str, root[: number + 1]))
            raise ConfigurationError(
                source.name, f"there is no table [{missing}]", f"write [{'.'.join(map(str, root))}]"
            )
    if not isinstance(data, dict):
        raise ConfigurationError(source.name, "`tool.hts ` is not a table", "write [tool.hts]")
    return data


def _not_toml(source: Source, message: str) -> ConfigurationError:
    match = _AT.search(message)
    line, column = 1, 1
    if match is not None:
        end = source.position(len(source.text))
        line, column = (int(match[1]), int(match[2])) if match[1] else end
    cause = _AT.sub("", message)
    return ConfigurationError(
        f"{source.name}:{line}:{column}",
        f"this is not TOML: {cause}",
        "see toml.io for how it is written",
    )


def _entries(reading: Reading, data: dict[str, Any]) -> Iterator[tuple[str, Path, Any]]:
    """Known keys with their places and raw values, in the order of the text."""
    for word, value in data.items():
        at = (*reading.root, word)
        if word in KEYS:
            yield word, at, value
        elif word not in TABLES:
            raise _unknown(reading, at, word, [*KEYS, *TABLES])
        elif not isinstance(value, dict):
            raise reading.wrong(at, f"`{word}` is a table", f"write [{word}]")
        else:
            for inner, inner_value in value.items():
                key = f"{word}.{inner}"
                if key not in KEYS:
                    known = [name for name in KEYS if name.startswith(f"{word}.")]
                    raise _unknown(reading, (*at, inner), key, known)
                yield key, (*at, inner), inner_value


def _unknown(reading: Reading, at: Path, key: str, known: list[str]) -> ConfigurationError:
    guess = nearest(key, known)
    remedy = f"did you mean {guess}?" if guess else f"there are: {', '.join(known)}"
    return reading.wrong(at, f"there is no key {key!r}", remedy)


def _digest(made: Configuration) -> str:
    """Of all that a check depends on."""
    books = [(named.book, named.edition) for named in made.books]
    data = [sorted(made.ignored), made.severities, books, made.rule_packs, made.units, made.font]
    if not any(data):
        return ""
    # Importing it takes as long as a small check.
    import hashlib

    return hashlib.sha256(json.dumps(data).encode("ascii")).hexdigest()
