"""The loader of YAML that texts of others are read with."""

from __future__ import annotations

from typing import Any


def yaml_loader() -> Any:
    """The loader in C where the package has it: the one in Python takes a minute for a megabyte of
    brackets. Neither makes anything but maps, lists and values. Raises ImportError."""
    import yaml

    return getattr(yaml, "CSafeLoader", yaml.SafeLoader)
