"""What changed between two specifications, told by meaning."""

from hts.comparison.change import Change, Representation, Side
from hts.comparison.compare import Comparison, compare
from hts.comparison.rows import ChangedRow

__all__ = ["Change", "ChangedRow", "Comparison", "Representation", "Side", "compare"]
