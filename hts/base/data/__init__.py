"""Trade facts that ship with the package: YAML sources, their schemas and the compiled JSON.

The YAML files are what people read and edit; `python -m hts.generate` validates them and writes
`compiled/NAME.json`, the only form read at run time (a YAML parser would cost more than a check).
"""

import json
import os
from functools import cache
from typing import Any

_COMPILED = os.path.join(os.path.dirname(os.path.abspath(__file__)), "compiled")


class MissingData(LookupError):
    """The compiled form of a data file is not there."""


@cache
def load(name: str) -> Any:
    """Return the parsed content of compiled data file `name`, for example "pipe" or "books/x".

    The result is shared between callers: treat it as read-only. Raises MissingData.
    """
    path = os.path.join(_COMPILED, *f"{name}.json".split("/"))
    try:
        with open(path, encoding="utf-8") as file:
            return json.load(file)
    except FileNotFoundError:
        raise MissingData(
            f"no compiled data {name!r} ({path}); run: python -m hts.generate"
        ) from None
