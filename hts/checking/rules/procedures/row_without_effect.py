"""Every row of a procedure counts somewhere."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import amended, domain, options, rows
from hts.checking.rules.helpers.rows import (
    asked_for,
    grouped,
    own_procedures,
    place,
    worked_out_of,
)
from hts.checking.rules.procedures.rows_not_compared import not_compared
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.vocabulary.demand_lines import DemandLine, Forbids
from hts.language.vocabulary.procedure import Procedure

if TYPE_CHECKING:
    from hts.limits import Limit
    from hts.limits.cells import Domain

_LINE = "  holding spread   at most 25 K"
_RATE = "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm"

RULE = Rule(
    "R104",
    "row-without-effect",
    "warning",
    summary="A row of a procedure that never applies, or that a stricter one overrides wherever "
    "it applies.",
    why="All rows that apply count, and the strictest governs: a milder row is no exception to it.",
    fix="Give the stricter row the condition it is meant for, or leave the milder one out.",
    source="arithmetic: rows of fixed values; what is forbidden cannot be allowed besides",
    basis="derived",
    bad=(
        Bad(
            ((_LINE, f"{_LINE}\n  allows lower-temperature hold when p_number = 1"),),
            base="owner",
            at="allows",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  preheat at least 95 degC when p_number = 3"),),
            base="owner",
            at="preheat",
            says="3 holds",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  preheat at least 95 degC when grade = X10CrMoVNb9-11"),),
            base="owner",
            at="preheat",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  requires junction cover when thicker_wall > 25 cm"),),
            base="owner",
            at="requires",
            says="thicker_wall > 25 cm",
        ),
        Bad(
            (
                (
                    _LINE,
                    f"{_LINE}\n  requires junction cover\n  requires junction cover when t > 30 mm",
                ),
            ),
            base="owner",
            at="junction cover",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  allows code exemption when p_number = 1"),),
            base="owner",
            at="code exemption",
            says="allows the code exemption in some cases, and forbids it in none",
        ),
        Bad(
            ((_LINE, f'{_LINE}\n  allows code exemption because "Sour service"'),),
            base="owner",
            at="code exemption",
            says="allows the code exemption and forbids it nowhere",
        ),
        # A condition turned round: the formula is milder there than what holds anyway.
        Bad(
            (
                (
                    _RATE,
                    f"{_RATE}\n  heating rate at most 200 degC/h * 60 mm / t above 315 degC when t < 60 mm",
                ),
            ),
            base="owner",
            at="heating rate",
            says="200 degC/h * 60 mm / t never counts … at most 200 degC/h",
        ),
    ),
    edges=(
        Edge(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n  holding spread at most {} when t > 30 mm",
                ),
            ),
            keeps="24 K",
            breaks="25 K",
            at="holding spread",
            base="owner",
            says="at most 25 K … at most 25 K",
        ),
        # What holds for the whole pipe holds for a metre of it.
        Edge(
            (
                (
                    _LINE,
                    f"{_LINE}\n  heating spread at most {{}} within 1 m",
                ),
            ),
            keeps="139 K",
            breaks="140 K",
            at="heating spread",
            base="owner",
            says="at most 140 K within 1 m never counts … at most 140 K",
        ),
    ),
    good=(
        Good(
            (
                (
                    _LINE,
                    f"{_LINE}\n  requires junction cover when t > 30 mm\n"
                    "  requires junction cover when p_number = 4",
                ),
            ),
            base="owner",
        ),
        Good(
            ((_LINE, f"{_LINE}\n  preheat at least 95 degC when grade in (X10CrMoVNb9-1, P36)"),),
            base="owner",
        ),
        Good(
            ((_LINE, f"{_LINE}\n  preheat at least 95 degC when not carbon is known"),),
            base="owner",
        ),
        Good(
            ((_LINE, f"{_LINE}\n  holding spread at most 20 K when t > 30 mm"),),
            base="owner",
        ),
        Good(
            (
                (
                    "  forbids          lower-temperature hold",
                    "  forbids lower-temperature hold when not p_number = 1\n"
                    "  allows lower-temperature hold when p_number = 1",
                ),
            ),
            base="owner",
        ),
    ),
)

#: What counts by itself wherever the code has it.
_ANYWAY = "code exemption"
#: So few welds of those worked out tell nothing of a formula.
_WELDS = 3


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        # Imported here, for most files hold no procedure.
        from hts.limits.alternatives import idle

        within = domain(procedure)
        _elsewhere(case, procedure, within)
        for quantity, direction, group in grouped(procedure):
            untold = not_compared(case, procedure)
            for row, stronger in idle(group, direction, within, untold):
                _tell(
                    case,
                    procedure,
                    f"{quantity} {asked_for(row, direction)} never counts: another row asks for "
                    f"{asked_for(stronger, direction)} wherever it holds",
                    place(procedure, row),
                    place(procedure, stronger),
                )
        _within(case, procedure)
        _formulas(case, procedure)
        _options(case, procedure, within)
        _demands(case, procedure)
        _grades(case, procedure)


def _within(case: Case, procedure: Procedure) -> None:
    """Spreads within a distance that are no less than what the whole part is allowed."""
    from hts.limits.alternatives import value
    from hts.limits.demand import size

    for quantity, direction, group in grouped(procedure):
        if direction != "maximum":
            continue
        # Formulas are no fixed values.
        allowed = {
            id(row): size(found)
            for row in group
            if row.maximum is not None and (found := value(row.maximum, {})) is not None
        }
        for row in group:
            if row.within is None or id(row) not in allowed:
                continue
            for other in group:
                holds = other.when is None or (
                    row.when is not None and other.when.text == row.when.text
                )
                if other.within is not None or id(other) not in allowed or not holds:
                    continue
                if allowed[id(other)] <= allowed[id(row)]:
                    _tell(
                        case,
                        procedure,
                        f"{quantity} {asked_for(row, direction)} within {row.within.text} never counts: "
                        f"another row asks for {asked_for(other, direction)} over all distances",
                        place(procedure, row),
                        place(procedure, other),
                    )
                    break


def _formulas(case: Case, procedure: Procedure) -> None:
    """Formulas of the thickness that hold for some thicknesses, and that one other row outdoes at
    each of them."""
    from hts.limits.worked import THICKNESSES, applies

    for column in worked_out_of(procedure):
        for row in column.rows:
            asked = getattr(row, column.direction).names
            if row.when is None or not set(THICKNESSES) & set(asked) & set(row.when.names):
                continue
            governing = [bound for weld, bound in column.bounds if applies(row, weld.facts)]
            strongest = {id(bound.row): bound.row for bound in governing if bound is not None}
            if len(governing) < _WELDS or len(strongest) != 1 or id(row) in strongest:
                continue
            (stronger,) = strongest.values()
            _tell(
                case,
                procedure,
                f"{column.quantity} {asked_for(row, column.direction)} never counts: another row asks "
                f"for {asked_for(stronger, column.direction)} wherever it holds",
                place(procedure, row),
                place(procedure, stronger),
            )


def _demands(case: Case, procedure: Procedure) -> None:
    """A demand made again: the one that stands there for all cases says it already."""
    names = amended(procedure)
    others = [each for each in case.spec.file.procedures if each.name in names]
    for lines, before in (
        (
            (*procedure.requires, *procedure.prefers),
            [line for each in others for line in each.requires],
        ),
        (procedure.forbids, [line for each in others for line in each.forbids]),
    ):
        first: dict[str, DemandLine | Forbids] = {
            " ".join(line.what.text.split()): line
            for line in before
            if line.what is not None and line.sound and line.when is None
        }
        for line in lines:
            if line.what is None or not line.sound:
                continue
            text = " ".join(line.what.text.split())
            other = first.setdefault(text, line)
            whens = {each.when.text if each.when is not None else "" for each in (other, line)}
            if other is line or (len(whens) > 1 and "" not in whens):
                continue
            _tell(
                case,
                procedure,
                f"`{text}` is already said in another line",
                line.place("what"),
                other.place("what"),
                "the other line",
            )


def _elsewhere(case: Case, procedure: Procedure, within: Domain) -> None:
    """Rows for what the procedure is not for. A governing thickness may lie outside its walls."""
    from hts.limits.alternatives import never_hold

    strictly = within._replace(ends={})
    all_rows = (*rows(procedure), *options(procedure), *_conditions(procedure))
    for row in never_hold(all_rows, strictly, not_compared(case, procedure)):
        if row.when is not None and row.source.at is not None:
            case.add(
                RULE.found(
                    f"{row.when.text} holds for nothing that {procedure.name} applies to",
                    row.source.at,
                    address=procedure.name,
                )
            )


def _conditions(procedure: Procedure) -> Iterator[Limit]:
    """The lines that ask for something where a condition holds, as rows with that condition."""
    from hts.limits import OPTION, Limit, Source

    for line in (*procedure.requires, *procedure.prefers):
        if line.when is not None:
            source = Source(procedure.name, at=line.place())
            yield Limit(OPTION, source, status="allowed", when=line.when.text)


def _grades(case: Case, procedure: Procedure) -> None:
    """Rows for a grade that is nearly one of the table: no material will be spelled so."""
    from hts.limits.cells import named
    from hts.science.tables.grades import misspelled

    for row in (*rows(procedure), *options(procedure)):
        for word in named(row.when, "grade") if row.when is not None else ():
            meant = misspelled(word)
            if meant and row.source.at is not None:
                case.add(
                    RULE.found(
                        f"the grade table has no {word}: no material of that name comes under this row",
                        row.source.at,
                        address=procedure.name,
                        help=f"did you mean {meant}?",
                    )
                )


def _options(case: Case, procedure: Procedure, within: Domain) -> None:
    """Options that are allowed where they are forbidden as well, or that nothing forbids."""
    from hts.limits.alternatives import covered

    names = {procedure.name, *amended(procedure)}
    known = {each.name for each in case.spec.file.procedures}
    forbidden = {
        line.option
        for each in case.spec.file.procedures
        if each.name in names
        for line in each.forbids
    }
    for line in procedure.allows if names <= known else ():
        if line.option is None or line.option in forbidden:
            continue
        # Without a condition it is a plain word to the crew, but for what nobody has to allow.
        if line.when is not None or line.option == _ANYWAY:
            where = (
                "in some cases, and forbids it in none" if line.when else "and forbids it nowhere"
            )
            case.add(
                RULE.found(
                    f"{procedure.name} allows the {line.option} {where}",
                    line.place("option"),
                    address=procedure.name,
                    help="leave it out, or forbid the option where it is not allowed",
                )
            )

    def forbids(row: Limit, other: Limit) -> bool:
        apart = row.status == "allowed" and other.status == "forbidden"
        return apart and other.option == row.option

    stated = tuple(options(procedure))
    for row, other in covered(stated, forbids, within, not_compared(case, procedure)):
        assert row.source.at is not None and other.source.at is not None
        _tell(
            case,
            procedure,
            f"the {row.option} is allowed here, but forbidden in all these cases, too",
            row.source.at,
            other.source.at,
        )


def _tell(
    case: Case,
    procedure: Procedure,
    message: str,
    at: Span,
    stronger: Span,
    label: str = "the row that counts",
) -> None:
    case.add(
        RULE.found(
            message,
            at,
            address=procedure.name,
            others=[Label(stronger, label)],
        )
    )
