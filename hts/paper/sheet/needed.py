"""Packages that are only there when an extra was installed."""

from __future__ import annotations

from importlib import import_module
from types import ModuleType


class MissingPackage(Exception):
    """A package of an extra is not installed; the message says how to get it."""

    def __init__(self, package: str, extra: str) -> None:
        named = package.partition(".")[0]
        super().__init__(f'{named} is not installed; run: pip install "hts[{extra}]"')


def needed(package: str, extra: str) -> ModuleType:
    """The package, imported. Raises MissingPackage."""
    try:
        return import_module(package)
    except ModuleNotFoundError as error:
        if error.name is not None and error.name.split(".")[0] == package.split(".")[0]:
            raise MissingPackage(package, extra) from None
        raise
