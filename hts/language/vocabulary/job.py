"""The document: its identity, history, approvals, and what governs the work."""

from __future__ import annotations

from hts.base.quantities import LENGTH, TEMPERATURE, Interval, Quantity
from hts.language.vocabulary.crew import Crew
from hts.language.vocabulary.declare import Entry, clause, entry, inner, value
from hts.language.vocabulary.types import (
    Address,
    Amount,
    BookEdition,
    Choice,
    Count,
    Day,
    Edition,
    Name,
    Range,
    Reference,
    Text,
    To,
)
from hts.limits.words import PARTS

METHODS = ("resistance", "induction", "furnace", "gas")
AXES = ("horizontal", "vertical", "inclined")
STATUSES = (
    "in preparation",
    "for review",
    "for approval",
    "for construction",
    "for information",
    "superseded",
)


class Revision(Entry, words="revision", example="revision B on 2026-11-20 status for construction"):
    """The revision this text is."""

    name: str = value(Name("a revision", "B"), "Letter or number of the revision")
    on: str | None = clause("on", Day(), "Day of the revision", required=True)
    status: str | None = clause("status", Choice(*STATUSES), "What the issue is for")
    answer: str | None = clause(
        "answer",
        Choice("approved", "approved with comments", "not approved", "for information only"),
        "The client's answer to it",
    )


class HistoryLine(Entry, example='A on 2026-10-02 "First issue"'):
    """One revision of the history and what changed in it."""

    name: str = value(Name("a revision", "A"), "Letter or number of the revision")
    on: str | None = clause("on", Day(), "Day of the revision", required=True)
    change: str = value(Text(), "What changed")
    approved: str | None = clause(
        "approved by", Text(), "Role that approved it", example='"Owner\'s engineer"'
    )
    sections: list[str] = clause(
        "section", Text(), "Part of the document that changed", many=True, example='"4.2"'
    )


class History(Entry, words="history", example='history { A on 2026-10-02 "First issue" }'):
    """Revision history, oldest first."""

    lines: list[HistoryLine] = inner(HistoryLine, many=True)


class Signature(Entry):
    """A role that signs, and when it has."""

    role: str = value(Text(), "Role that signs")
    on: str | None = clause("on", Day(), "Day of the signature", example="2026-11-20")


class Prepared(Signature, words="prepared", example='prepared "Heat-treatment engineer"'):
    """Who wrote the document."""


class Checked(Signature, words="checked", example='checked "Welding engineer"'):
    """Who checked it."""


class Reviewed(Signature, words="reviewed", example='reviewed "Quality engineer"'):
    """Who reviewed it."""


class Endorsed(Signature, words="endorsed", example='endorsed "Owner\'s inspector"'):
    """Who endorsed it for the owner."""


class Approved(Signature, words="approved", example='approved "Owner\'s engineer"'):
    """Who approves it."""


class Signed(Entry, words="signed", example='signed { prepared "Heat-treatment engineer" }'):
    """The roles that sign the document."""

    prepared: Prepared | None = inner(Prepared, required=True)
    checked: list[Checked] = inner(Checked, many=True)
    reviewed: list[Reviewed] = inner(Reviewed, many=True)
    endorsed: list[Endorsed] = inner(Endorsed, many=True)
    approved: list[Approved] = inner(Approved, many=True)


class SourceDocument(
    Entry,
    words="reference",
    example='reference "Welding of alloy piping" edition "2019" clause "5.3"',
):
    """A document the work refers to."""

    title: str = value(Text(), "Title or number")
    edition: str | None = clause("edition", Text(), "Edition or revision", example='"2019"')
    clause_: str | None = clause("clause", Text(), "Clause or paragraph")


class OpenPoint(Entry, words="open point", example='open point 1 "Wall of the tee to be measured"'):
    """Something still to be settled; a document with open points is not for construction."""

    number: str = value(Name("a number", "1"), "Number on the hold list")
    text: str = value(Text(), "What is open and why")
    page: int | None = clause("page", Count(usual="1 .. 999"), "Page it concerns", example="3")
    clause_: str | None = clause("clause", Text(), "Paragraph it concerns", example='"4.2"')
    closed: str | None = clause("closed", Day(), "Day it was settled")


class Responsibility(
    Entry,
    words="responsibility",
    example='responsibility "Heat-treatment technician" "Attaches thermocouples"',
):
    """Who answers for what."""

    role: str = value(Text(), "Role")
    duty: str = value(Text(), "What the role answers for")


class Qualification(
    Entry,
    words="qualification",
    example='qualification "Technician" "Trained in electrical hazards" certificate "C-1107"',
):
    """What a person must be trained or certified for."""

    told_by = ("role",)
    role: str = value(Text(), "Role")
    needs: str = value(Text(), "Training or certificate")
    certificate: str | None = clause(
        "certificate", Text(), "Number of the certificate", example='"C-1107"'
    )
    until: str | None = clause("until", Day(), "Last day it holds", example="2027-06-30")


class Definition(Entry, words="definition", example='definition "PT" "Liquid penetrant testing"'):
    """A term or abbreviation of the document."""

    term: str = value(Text(), "Term")
    meaning_: str = value(Text(), "Meaning")


class Scope(Entry, words="scope", example='scope { purpose "Stress relief of feed headers" }'):
    """What the document is for, and the limits of its use."""

    purpose: str | None = entry(
        "purpose",
        Text(),
        "What the document is for",
        example='purpose "Stress relief of feed headers"',
    )
    application: list[str] = entry(
        "application",
        Text(),
        "What it may be applied to",
        example='application "Girth butts"',
        many=True,
    )
    parts: list[str] = entry(
        "part", Choice(*PARTS), "Kind of part it covers", example="part pipe, elbow", many=True
    )
    methods: list[str] = entry(
        "method",
        Choice(*METHODS),
        "Heating method it covers",
        example="method resistance",
        many=True,
    )
    axes: list[str] = entry(
        "axis", Choice(*AXES), "Pipe axis it covers", example="axis horizontal", many=True
    )
    outside_diameter: Interval | None = entry(
        "outside diameter",
        Range(LENGTH, usual="0, 10 .. 6000 mm"),
        "Outside diameters it covers",
        example="outside diameter 60.3 .. 610 mm",
    )
    wall: Interval | None = entry(
        "wall", Range(LENGTH, usual="0, 2 .. 350 mm"), "Walls it covers", example="wall 5 .. 40 mm"
    )
    hottest: Quantity | None = entry(
        "temperature at most",
        Amount(TEMPERATURE, usual="50 .. 1150 degC"),
        "Highest temperature it covers",
        example="temperature at most 780 degC",
    )


class Job(Entry, words="job", example='job "Feed header replacement" { … }'):
    """Identity of the document, its approvals, and the books and procedures that govern it."""

    name: str = value(Text(), "Title")
    number: str = entry(
        "number", Text(), "Document number", required=True, example='number "HT-0147"'
    )
    revision: Revision = inner(Revision, required=True)
    history: History | None = inner(History)
    client: str | None = entry("client", Text(), "Client", example='client "Tern Island Power"')
    project: str | None = entry("project", Text(), "Project", example='project "Boiler 2 refit"')
    area: str | None = entry("area", Text(), "Area of the plant", example='area "Boiler house"')
    plant_unit: str | None = entry(
        "plant unit", Text(), "Unit of the plant", example='plant unit "Boiler 2"'
    )
    order: str | None = entry("order", Text(), "Purchase order", example='order "PO-5512"')
    scope: Scope | None = inner(Scope)
    governed_by: list[Edition] = entry(
        "governed by",
        BookEdition(),
        "Rule books that govern, with their editions",
        required=True,
        many=True,
        example="governed by asme-b31.3 edition 2018, local-heating",
    )
    follows: list[Reference] = entry(
        "follows", To("procedure"), "Procedures the job follows", many=True, example="follows P-07"
    )
    precedence: list[str] = entry(
        "precedence",
        Name("a book or procedure", "P-07", of="book or procedure"),
        "Whose owner is asked first where limits exclude each other; else the strictest counts",
        many=True,
        example="precedence P-07, asme-b31.3",
    )
    show: str | None = entry(
        "show",
        Choice("SI and US", "US and SI", "SI", "US"),
        "Units on paper, the governing system first",
        example="show SI and US",
    )
    sources: list[SourceDocument] = inner(SourceDocument, many=True)
    open_points: list[OpenPoint] = inner(OpenPoint, many=True)
    responsibilities: list[Responsibility] = inner(Responsibility, many=True)
    qualifications: list[Qualification] = inner(Qualification, many=True)
    definitions: list[Definition] = inner(Definition, many=True)
    permit: list[str] = entry(
        "permit", Text(), "Permit to work", many=True, example='permit "HW-221"'
    )
    crews: list[Crew] = inner(Crew, many=True)
    copies: list[str] = entry(
        "copy to", Text(), "Who gets a copy", many=True, example='copy to "Owner\'s inspector"'
    )
    attachments: list[str] = entry(
        "attachment",
        Text(),
        "Form or appendix that belongs to it",
        many=True,
        example='attachment "Form 3: hourly readings"',
    )
    signed: Signed | None = inner(Signed, required=True)


class Version(Entry, words="spec", example="spec 1"):
    """Version of the language the file is written in; the first entry of every file."""

    number: int = value(Count("1"), "Version, 1")


class Use(Entry, words="use", example='use "library/standing-orders.hts"'):
    """Another file whose procedures, materials, equipment and joints this one may name."""

    path: str = value(Text(), "Path relative to this file, inside the repository")


class OwnBook(Entry, words="book", example='book "books/island-law.yaml"'):
    """A rule book of this repository's own, which `governed by` may then name by its id."""

    path: str = value(Text(), "Path relative to this file, inside the repository")


class Waive(
    Entry,
    words="waive",
    block=True,
    example="waive missing-spare on W12/thermocouples/T5 { … }",
):
    """A rule or limit set aside for one named thing."""

    rule: str = value(
        Name("the name or code of a rule", "missing-spare", of="rule"),
        "Name or code of the rule",
    )
    on: str | None = clause(
        "on", Address(), "Address of the thing", required=True, example="W12/thermocouples/T5"
    )
    reason: str = entry(
        "reason",
        Text(),
        "Why it may be set aside",
        required=True,
        example='reason "Edge monitor only"',
    )
    by: str = entry(
        "by", Text(), "Role that decided it", required=True, example='by "Welding engineer"'
    )
    until: str | None = entry(
        "until", Day(), "Day it ends", required=True, example="until 2027-01-31"
    )
