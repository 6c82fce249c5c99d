"""Why a specification without an error in its text may still not become paper."""

from __future__ import annotations

from collections.abc import Iterable


class CannotCompile(Exception):
    """Values that neither the text nor a rule gives; `reasons` has one line for each."""

    def __init__(self, reasons: Iterable[str], path: str = "") -> None:
        """``path``: what the specification is called, for the message alone."""
        self.reasons = tuple(reasons)
        said = "; ".join(self.reasons)
        super().__init__(f"{path}: {said}" if path else said)
