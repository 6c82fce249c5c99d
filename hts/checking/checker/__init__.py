"""Checks a specification: language, limits, rules, waivers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hts.checking.checker.run import check_spec
    from hts.checking.govern.case import Case

__all__ = ["Case", "check_spec"]


def __getattr__(name: str) -> Any:
    """Both on first use: a run that finds every outcome kept needs neither."""
    if name == "Case":
        from hts.checking.govern.case import Case

        return Case
    if name == "check_spec":
        from hts.checking.checker.run import check_spec

        return check_spec
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
