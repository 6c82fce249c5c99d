"""What books and procedures demand of a joint, and which demand governs."""

from hts.limits.books import Book, UnknownBook, UnknownEdition, book, books
from hts.limits.demand import Amount, Demand, Governing, Unanswered
from hts.limits.engine import demands
from hts.limits.fact_kind import FactKind
from hts.limits.facts import FACT_KINDS, FACTS
from hts.limits.limit import Limit, Source
from hts.limits.looser import Looser, looser
from hts.limits.quantities import HEAT_TREATMENT, LIMITED, OPTION, PROHIBITED, Limited

__all__ = [
    "FACTS",
    "FACT_KINDS",
    "HEAT_TREATMENT",
    "LIMITED",
    "OPTION",
    "PROHIBITED",
    "Amount",
    "Book",
    "Demand",
    "FactKind",
    "Governing",
    "Limit",
    "Limited",
    "Looser",
    "Source",
    "Unanswered",
    "UnknownBook",
    "UnknownEdition",
    "book",
    "books",
    "demands",
    "looser",
]
