"""What changed between two specifications, told by meaning."""

from hts.job.comparison.change import Change, Representation, Side
from hts.job.comparison.compare import Comparison, compare
from hts.job.comparison.rows import ChangedRow

__all__ = ["Change", "ChangedRow", "Comparison", "Representation", "Side", "compare"]
