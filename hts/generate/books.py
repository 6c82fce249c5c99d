"""Checks what the schema of the rule books cannot: names, words, formulas and their units."""

from __future__ import annotations

import os

from hts.generate import GenerateError
from hts.limits.soundness import problems

_FOLDER = "hts/base/data/books"


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
