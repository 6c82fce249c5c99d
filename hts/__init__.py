"""Specification language for preheat, hydrogen bake-out and post-weld heat treatment of welds.

As a library it has four functions, `load`, `check`, `compile` and `diff`: see `hts.api`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hts.api import check, compile, diff, load

__version__ = "0.1.0"
__all__ = ["__version__", "check", "compile", "diff", "load"]


def __getattr__(name: str) -> Any:
    """The functions of `hts.api`, imported when they are first asked for."""
    if name in ("check", "compile", "diff", "load"):
        from hts import api

        return getattr(api, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
