"""What changed between two specifications, told by meaning."""

from hts.diff.change import Change, Representation, Side
from hts.diff.compare import Comparison, compare
from hts.diff.rows import ChangedRow

__all__ = ["Change", "ChangedRow", "Comparison", "Representation", "Side", "compare"]
