"""A row of a rule book that replaces another is for welds, and in an edition, of that one."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.metals import FERRITIC
from hts.checking.rules.helpers.metals_of_conditions import metals_of
from hts.checking.rules.helpers.rows import editions_of, own_procedures, place_in_book
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.load import LoadedBook
from hts.language.vocabulary.procedure import Procedure
from hts.limits import Limit, UnknownBook, UnknownEdition, book

_LINE = "  holding spread   at most 25 K"
_COOL = f"{_LINE}\n  temperature before heat treatment at most 95 degC when p_number = {{}} replaces common-practice.cool-before-p15e"
_SCOPE = ("applies to p-number  1, 4, 5A", "applies to p-number  1, 4, 5A, 15E")

RULE = Rule(
    "R144",
    "replaces-row-of-others",
    "warning",
    summary="A line of a procedure, or a row of a rule book of one's own, that replaces a row for other metals or other welds, or "
    "one that its edition does not have.",
    why="It replaces nothing: an exemption of one steel lets nothing go, and a rule that an edition has lost is missed by "
    "nobody.",
    fix="Correct the metals of the row, or the editions of the one it replaces.",
    source="derived from the two rows",
    basis="derived",
    bad=(
        Bad(
            (
                ("applies to p-number  1, 4, 5A", "applies to p-number  5A"),
                (_LINE, _COOL.format("5A")),
            ),
            base="owner",
            at="common-practice.cool-before-p15e",
            says="a line for P-5A replaces common-practice.cool-before-p15e, which is for P-15E",
        ),
    ),
    good=(
        Good((_SCOPE, (_LINE, _COOL.format("15E"))), base="owner"),
        Good((_SCOPE, (_LINE, _COOL.format("15E and thicker_wall > 13 mm"))), base="owner"),
    ),
    agrees=(
        Agreement(
            "procedure.temperature before heat treatment.replaces",
            "procedure.temperature before heat treatment.when",
            "the metals of the row replaced",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for message, at in _of_other_metals(procedure):
            case.add(RULE.found(message, at, address=procedure.name))
    for own in case.spec.books:
        told: set[int] = set()
        for row, message in _of_nothing(own):
            at = place_in_book(own, row)
            if at.start not in told:
                told.add(at.start)
                case.add(RULE.found(message, at, address=own.file.id))


def _of_other_metals(procedure: Procedure) -> Iterator[tuple[str, Span]]:
    for line in procedure.limits:
        for written in line.replaces:
            mine = metals_of(line.when.text, list(FERRITIC)) if line.when is not None else []
            name, _, id = written.rpartition(".")
            its: tuple[str, ...] = ()
            with suppress(UnknownBook, UnknownEdition):
                rows = book(name).limits
                its = next((row.where.get("p_number", ()) for row in rows if row.id == id), ())
            if mine and its and not set(mine) & set(its):
                named = f"a line for P-{', P-'.join(mine)} replaces {written}"
                yield f"{named}, which is for P-{', P-'.join(its)}", line.place("replaces")


def _of_nothing(own: LoadedBook) -> Iterator[tuple[Limit, str]]:
    """The rows of an own book that replace what is not there, or is for other welds."""
    for edition in editions_of(own):
        rows = {row.id: row for row in edition.limits}
        for row in edition.limits:
            for name in row.replaces:
                other = rows.get(name)
                if other is None and name in own.file.rows:
                    named = f"edition {edition.edition}" if edition.edition else "the book"
                    yield row, f"{row.id} replaces {name}, which {named} does not have"
                for fact in set(row.where) & set(other.where) if other is not None else ():
                    assert other is not None
                    mine, its = row.where[fact], other.where[fact]
                    if not set(mine) & set(its):
                        told = f"{row.id} is for {fact} {', '.join(mine)}"
                        yield row, f"{told}, and replaces {name}, which is for {', '.join(its)}"
