"""Source text and positions in it."""

from hts.base.text.source import BYTE_ORDER_MARK, Source, Span

__all__ = ["BYTE_ORDER_MARK", "Source", "Span"]
