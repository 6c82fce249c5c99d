"""An owner's general procedure: limits with conditions, for a family of joints."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.language.vocabulary.declare import Entry, clause, entry, family, inner, value
from hts.language.vocabulary.demand_lines import Allows, FigureLimit, Forbids, Prefers, Requires
from hts.language.vocabulary.formulas import ConditionText, FormulaText
from hts.language.vocabulary.job import METHODS, Prepared, Revision
from hts.language.vocabulary.joint import KINDS
from hts.language.vocabulary.limit_lines import LIMIT_LINES, LimitLine
from hts.language.vocabulary.types import (
    Amount,
    BookEdition,
    Choice,
    Edition,
    Name,
    Reference,
    Size,
    Text,
    To,
)
from hts.limits.quantities import HEAT_TREATMENT, LIMITED
from hts.limits.words import P_NUMBERS, SERVICES
from hts.syntax.formula import Text as Words

_STATUSES = LIMITED[HEAT_TREATMENT].kind
assert isinstance(_STATUSES, Words)


STATUSES = _STATUSES.words


class Treatment(Entry, words=HEAT_TREATMENT, example=f"{HEAT_TREATMENT} required when t > 19 mm"):
    """Whether the owner wants post-weld heat treatment."""

    status: str = value(
        Choice(*STATUSES), "Prohibited unless approved, required, exempt, or none foreseen"
    )
    when: FormulaText | None = clause("when", ConditionText(), "Condition under which it applies")
    note: str | None = clause("because", Text(), "Why", example='"Service is wet and sour"')


class PNumbers(Entry, words="applies to p-number", example="applies to p-number 1, 3, 4, 5A"):
    """P-numbers the procedure is for."""

    each: list[str] = value(Size("a P-number", "5A", P_NUMBERS), "P-number", many=True)


class Kinds(Entry, words="applies to kind", example="applies to kind girth butt, branch"):
    """Kinds of weld the procedure is for."""

    each: list[str] = value(Choice(*KINDS), "Kind of weld", many=True)


class Methods(Entry, words="applies to method", example="applies to method resistance"):
    """Heating methods the procedure is for."""

    each: list[str] = value(Choice(*METHODS), "Heating method", many=True)


class Services(Entry, words="applies to service", example="applies to service amine"):
    """Services the procedure is for."""

    each: list[str] = value(Choice(*SERVICES), "Service", many=True)


class SizeRange(Entry):
    """A size the procedure is for."""

    one_of = from_to = ("at_least", "at_most")
    at_least: Quantity | None = clause(
        "at least", Amount(LENGTH, usual="10 .. 6000 mm"), "Smallest", example="60.3 mm"
    )
    at_most: Quantity | None = clause(
        "at most", Amount(LENGTH, usual="10 .. 6000 mm"), "Largest", example="75 mm"
    )


class WallRange(SizeRange, words="applies to wall", example="applies to wall at most 75 mm"):
    """Walls the procedure is for."""

    at_least: Quantity | None = clause(
        "at least", Amount(LENGTH, usual="1 .. 350 mm"), "Thinnest", example="5 mm"
    )
    at_most: Quantity | None = clause(
        "at most", Amount(LENGTH, usual="3 .. 350 mm"), "Thickest", example="75 mm"
    )


class DiameterRange(
    SizeRange,
    words="applies to outside diameter",
    example="applies to outside diameter at least 60.3 mm",
):
    """Outside diameters the procedure is for."""


class When(Entry, words="applies when", example="applies when carbon <= 0.30 %"):
    """A further condition under which the procedure applies."""

    condition: FormulaText = value(ConditionText(), "Condition")


class Amends(Entry, words="amends", example="amends P-07 revision 3"):
    """A procedure this one amends: its lines may replace limits of that procedure, no code's."""

    procedure: Reference = value(To("procedure"), "Procedure it amends")
    revision: str | None = clause(
        "revision", Name("a revision", "3"), "The revision it was written for", required=True
    )


class Procedure(
    Entry,
    words="procedure",
    block=True,
    example='procedure P-07 "Treatment of piping welds" { hold time at least 2 h }',
):
    """A general procedure for a family of joints."""

    name: str = value(Name("a name", "P-07"), "What jobs call it")
    title: str = value(Text(), "Title", optional=True)
    revision: Revision | None = inner(Revision)
    prepared: Prepared | None = inner(Prepared)
    amends: list[Amends] = inner(Amends, many=True)
    governed_by: list[Edition] = entry(
        "governed by",
        BookEdition(),
        "Rule books it was written to: wherever it is looser than they are is told by itself",
        many=True,
        example="governed by asme-b31.3 edition 2018",
    )
    p_numbers: PNumbers | None = inner(PNumbers)
    kinds: Kinds | None = inner(Kinds)
    methods: Methods | None = inner(Methods)
    services: Services | None = inner(Services)
    walls: WallRange | None = inner(WallRange)
    diameters: DiameterRange | None = inner(DiameterRange)
    conditions: list[When] = inner(When, many=True)
    limits: list[LimitLine] = family(*LIMIT_LINES.values(), doc="Limits of the procedure")
    treatments: list[Treatment] = inner(Treatment, many=True)
    forbids: list[Forbids] = inner(Forbids, many=True)
    allows: list[Allows] = inner(Allows, many=True)
    requires: list[Requires] = family(
        Requires, FigureLimit, doc="Entries every job has to have, and limits on their figures"
    )
    prefers: list[Prefers] = inner(Prefers, many=True)
    left_to_job: list[str] = entry(
        "leaves to the job",
        Text(),
        "What the job has to decide",
        many=True,
        example='leaves to the job "Number of heaters"',
    )
    cautions: list[str] = entry(
        "caution",
        Text(),
        "Caution on the paper of every job",
        many=True,
        example='caution "Surfaces up to 780 degC"',
    )
    checks: list[str] = entry(
        "check",
        Text(),
        "Check on the paper of every job",
        many=True,
        example='check "Bore drained and vented"',
    )
    hand_over: list[str] = entry(
        "hand over",
        Text(),
        "Document to hand over",
        many=True,
        example='hand over "Chart with channel map"',
    )
