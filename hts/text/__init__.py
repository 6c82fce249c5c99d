"""Source text and positions in it."""

from hts.text.source import Source, Span

__all__ = ["Source", "Span"]
