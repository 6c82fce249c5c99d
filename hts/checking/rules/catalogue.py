"""Finds the rule files: every module below a family folder that holds a RULE."""

from __future__ import annotations

import os
import sys
from functools import lru_cache
from importlib import import_module
from importlib.util import module_from_spec, spec_from_file_location
from typing import Any

from hts.checking.rules.rule import Rule

_HERE = os.path.dirname(os.path.abspath(__file__))


@lru_cache(maxsize=1)
def families() -> tuple[str, ...]:
    """Names of the family folders, by alphabet."""
    return tuple(
        sorted(
            name
            for name in os.listdir(_HERE)
            if name != "helpers" and os.path.isfile(os.path.join(_HERE, name, "__init__.py"))
        )
    )


@lru_cache(maxsize=1)
def rules() -> tuple[Rule, ...]:
    """All rules, by code."""
    found = []
    for family in families():
        for file in sorted(os.listdir(os.path.join(_HERE, family))):
            if file.endswith(".py") and not file.startswith("_"):
                rule: Rule = _module(family, file[:-3]).RULE
                rule.family = family
                found.append(rule)
    return tuple(sorted(found, key=lambda rule: rule.kind.code))


def _module(family: str, name: str) -> Any:
    """The module of a rule. Where it lies is known: to have hundreds looked for along the path takes
    as long as checking several files."""
    full = f"hts.checking.rules.{family}.{name}"
    known = sys.modules.get(full)
    if known is not None:
        return known
    package = import_module(f"hts.checking.rules.{family}")
    spec = spec_from_file_location(full, os.path.join(_HERE, family, f"{name}.py"))
    assert spec is not None and spec.loader is not None
    made = sys.modules[full] = module_from_spec(spec)
    try:
        spec.loader.exec_module(made)
    except BaseException:
        del sys.modules[full]
        raise
    setattr(package, name, made)
    return made


@lru_cache(maxsize=1)
def by_subject() -> dict[str, tuple[Rule, ...]]:
    """The rules by what they look at."""
    return {
        subject: tuple(rule for rule in rules() if rule.subject == subject)
        for subject in ("spec", "joint", "treatment")
    }
