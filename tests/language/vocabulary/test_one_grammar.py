"""No demand of a procedure has a form of its own: every line that asks something of a job is one
of the general ones, or a limit on a quantity; what else a procedure says is listed with its reason.
"""

from __future__ import annotations

from hts.language.vocabulary.declare import CLAUSE, Entry
from hts.language.vocabulary.demand_lines import (
    Allows,
    DemandLine,
    FigureLimit,
    Forbids,
    Prefers,
    Requires,
)
from hts.language.vocabulary.demand_text import DemandText
from hts.language.vocabulary.demanded import by_first_word, places
from hts.language.vocabulary.limit_lines import LimitLine
from hts.language.vocabulary.paths import entries
from hts.language.vocabulary.procedure import Procedure
from hts.language.vocabulary.spec import File
from hts.limits.quantities import LIMITED
from tests.rows import each_row
from tests.texts import spec_of

GENERAL = {Requires, FigureLimit, Prefers, Forbids, Allows}
_IDENTITY = "says what the procedure is"
_FOR = "says what the procedure is for, and asks nothing of a job there"
_PAPER = "a text for the paper of every job: there is nothing in a job to hold it against"
#: Other lines of a procedure, and why they are no demands on the entries of a job.
OTHERS = {
    "revision": _IDENTITY,
    "prepared": _IDENTITY,
    "amends": "says whose limits its lines may replace",
    "governed by": "names the books it was written to; it is held against them itself",
    "applies to p-number": _FOR,
    "applies to kind": _FOR,
    "applies to method": _FOR,
    "applies to service": _FOR,
    "applies to wall": _FOR,
    "applies to outside diameter": _FOR,
    "applies when": _FOR,
    "post-weld heat treatment": "a limit whose value is a word, solved with those of the books",
    "leaves to the job": _PAPER,
    "caution": _PAPER,
    "check": _PAPER,
    "hand over": _PAPER,
}


def _lines() -> dict[str, type[Entry] | None]:
    """The lines of a procedure by their words."""
    fields = [field for found in Procedure.children.values() for field in found]
    return {
        " ".join(field.words) or (field.entry.__name__ if field.entry else ""): field.entry
        for field in (*fields, *Procedure.wordless)
    }


def test_every_line_is_general_or_a_limit_or_listed() -> None:
    own = {
        words: cls
        for words, cls in _lines().items()
        if cls not in GENERAL and not (cls is not None and issubclass(cls, LimitLine))
    }
    assert own.keys() == OTHERS.keys()


def test_a_limit_line_is_there_for_what_books_limit_and_no_more() -> None:
    for words, cls in _lines().items():
        if cls is not None and issubclass(cls, LimitLine):
            assert words in LIMITED


def test_general_lines_take_what_they_demand_from_the_vocabulary_alone() -> None:
    for cls in GENERAL:
        assert issubclass(cls, DemandLine | Forbids)
        assert isinstance(cls.fields["what"].type, DemandText)
        own = {field.name for field in cls.fields.values() if field.form == CLAUSE}
        assert own <= {"when", "note", "otherwise"}


def test_no_other_entry_begins_with_a_verb_of_a_demand() -> None:
    verbs = {cls.words[0] for cls in GENERAL if cls.words}
    found = {cls for cls in entries(File) if cls.words and cls.words[0] in verbs}
    assert found == {cls for cls in GENERAL if cls.words}


def test_words_of_demands_lead_to_one_declaration() -> None:
    """Words a demand alone has, and figures that are worked out, name one thing each."""
    short = {place.words[-1] for place in places() if len(place.words) == 1 and place.target.chain}
    assert {("monitor",), ("control",), ("predicted", "lag")} <= short
    for words in (*short, ("calibration",)):
        found = [place for each, place in by_first_word()[words[0]] if each == words]
        assert len({place.kind for place in found}) == 1, words


@each_row(
    "line",
    [
        "requires monitor soak edge at 12:00 at 6:00 count 2 each side when axis = horizontal",
        'requires monitor soak edge count 2 because "Two cracks in 2024"',
        "prefers monitor inside",
        "forbids control at 3:00 when axis = vertical",
        "requires control at 12:00, 6:00 when axis = horizontal",
        "requires spare for controlling thermocouples within 25 mm",
        "requires spare for all thermocouples, else heating insulation layers at least 2",
        "prefers spare for monitoring thermocouples",
        "requires guard band expanded uncertainty when p_number = 15E",
        "requires bake guard band one-sided 95 %",
        "requires predicted soak band within 740 .. 760 degC when t > 40 mm",
        "requires predicted lag at most 30 min",
        "requires predicted axial gradient at most 25 K over 100 mm",
        'recorder interval at most 60 s when t > 20 mm because "Fast rates"',
        "calibration at most 365 d",
        "requires recorder calibration at most 183 d, else recorder interval at most 10 s",
        "lead at least 1 m",
        "requires thermocouple controls all zones",
        "requires welding heat input at least 0.7 kJ/mm, at most 2.5 kJ/mm, else bake",
        "requires hardness weld at most 280 HV10, at least 190 HV10",
    ],
)
def test_what_is_said_in_the_one_grammar(line: str) -> None:
    spec = spec_of(f"spec 1\n\nprocedure P-1 {{\n  revision 1 on 2026-01-01\n  {line}\n}}\n")
    assert [found.message for found in spec.findings] == []
    procedure = spec.file.procedures[0]
    lines: list[DemandLine | Forbids] = [*procedure.requires, *procedure.prefers]
    lines += procedure.forbids
    assert [type(each) in GENERAL and each.what is not None for each in lines] == [True]


def test_a_comma_may_part_the_bounds_of_a_figure() -> None:
    line = "requires welding heat input at least 1 kJ/mm{} at most 2 kJ/mm"
    bounds = []
    for comma in ("", ","):
        spec = spec_of(f"spec 1\nprocedure P-1 {{\n  {line.format(comma)}\n}}\n")
        what = spec.file.procedures[0].requires[0].what
        assert what is not None
        bounds.append([(test.field, test.least, test.most) for test in what.tests])
    assert bounds[0] == bounds[1] and len(bounds[0]) == 1


@each_row(
    ("line", "words"),
    [
        ("requires predicted lag", "does not say `at most`"),
        ("forbids predicted lag at most 30 min", "can be required and no more"),
        ("prefers predicted soak band", "can be required and no more"),
        ("requires thermocouples type K each side", "no place beside the weld"),
        ("requires monitor somewhere", "'somewhere' is not a choice here"),
    ],
)
def test_what_cannot_be_demanded_so(line: str, words: str) -> None:
    spec = spec_of(f"spec 1\n\nprocedure P-1 {{\n  revision 1 on 2026-01-01\n  {line}\n}}\n")
    (found,) = spec.findings
    assert words in f"{found.message} {found.help}"
