"""Checks what the schema of the rule books cannot: names, words, formulas and their units."""

from __future__ import annotations

import os
from typing import Any

from hts.generate import GenerateError
from hts.limits.books import from_data
from hts.limits.facts import FACTS
from hts.limits.limit import Limit
from hts.limits.quantities import LIMITED, OPTION
from hts.syntax.formula import FormulaError, Text

_FOLDER = "hts/base/data/books"
_DIRECTIONS = ("minimum", "maximum", "exactly")


def generate(root: str) -> dict[str, str]:
    """Nothing to write (the data generator compiles books). Raises GenerateError for a bad row."""
    import yaml

    from hts.generate.data import FactLoader

    found = []
    for name in sorted(os.listdir(os.path.join(root, *_FOLDER.split("/")))):
        path = f"{_FOLDER}/{name}"
        with open(os.path.join(root, path), encoding="utf-8") as file:
            data = yaml.load(file, Loader=FactLoader)  # a safe loader
        if f"{data['id']}.yaml" != name:
            found.append(f"{path}: the book calls itself {data['id']!r}")
        found += [f"{path}: {problem}" for problem in problems(data)]
    if found:
        raise GenerateError("\n".join(found))
    return {}


def problems(data: Any) -> list[str]:
    """What is wrong with a book that meets the schema: "row ID, part, from column: reason"."""
    found = _editions(data)
    ids = [row["id"] for row in data["rows"]]
    found += [f"row {id}: the id is given twice" for id in sorted(set(ids)) if ids.count(id) > 1]
    by_id = {row["id"]: row for row in data["rows"]}
    for row in data["rows"]:
        for other in row.get("replaces", ()):
            if other not in by_id:
                found.append(f"row {row['id']}: replaces {other!r}, which is not there")
            elif by_id[other]["quantity"] != row["quantity"]:
                found.append(f"row {row['id']}: replaces {other!r}, which limits something else")
    if found:
        return found
    reported = set()
    for edition in data.get("editions", {}) or (None,):
        for system in ("SI", "US"):
            for limit in from_data(data, edition, system).limits:
                reported.update(_limit(limit))
    return sorted(reported)


def _editions(data: Any) -> list[str]:
    """Editions named that the book does not have."""
    known = data.get("editions", {})
    named = [(f"row {row['id']}", row.get("editions", ())) for row in data["rows"]]
    named += [(f"edition {name}", edition.get("alike", ())) for name, edition in known.items()]
    found = [
        f"{place}: there is no edition {edition!r}"
        for place, editions in named
        for edition in editions
        if edition not in known
    ]
    if "alike" not in data and any(edition.get("alike") for edition in known.values()):
        found.append("alike: how well it is known that editions are alike is not said")
    return found


def _limit(limit: Limit) -> list[str]:
    place = f"row {limit.id}"
    limited = LIMITED.get(limit.quantity)
    if limited is None:
        return [f"{place}: there is no quantity {limit.quantity!r}"]
    found = []
    for name, words in limit.where.items():
        kind = FACTS[name].kind if name in FACTS else None
        if not isinstance(kind, Text):
            found.append(f"{place}, for: {name!r} is not a fact that is a word")
        elif kind.words:
            found += [f"{place}, for: {name} is never {w!r}" for w in words if w not in kind.words]
    given = [part for part in limit.parts() if part in _DIRECTIONS]
    if isinstance(limited.kind, Text):
        if given or limit.status not in limited.kind.words:
            found.append(f"{place}: {limit.quantity} is one of {', '.join(limited.kind.words)}")
        return found + (_formulas(limit, place) if not given else [])
    found += [
        f"{place}: {limit.quantity} has no {part} value"
        for part in given
        if part not in limited.directions
    ]
    if not given:
        found.append(f"{place}: {limit.quantity} needs a value")
    if limit.quantity == OPTION and limit.option is None:
        found.append(f"{place}: which option?")
    return found + _formulas(limit, place)


def _formulas(limit: Limit, place: str) -> list[str]:
    found = []
    for part, error in limit.problems():
        assert isinstance(error, FormulaError)
        found.append(f"{place}, {part}, from column {error.start + 1}: {error}")
    return found
