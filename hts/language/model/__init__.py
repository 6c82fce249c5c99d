"""From entries to a specification with its names resolved."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hts.language.model.load import Loader
    from hts.language.model.spec import Spec

__all__ = ["Loader", "Spec"]


def __getattr__(name: str) -> Any:
    """Both on first use: whoever only needs the defaults of a text does not wait for the rest."""
    if name == "Loader":
        from hts.language.model.load import Loader

        return Loader
    if name == "Spec":
        from hts.language.model.spec import Spec

        return Spec
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
