"""Which of several entries gives a fact, and when there is none; figures counted by hand. Then the
books and procedures of a text."""

from __future__ import annotations

from typing import Any

from hts.base.findings import Report
from hts.base.text import Source
from hts.checking.govern import sources
from hts.checking.govern.case import Case
from hts.checking.govern.facts import facts_by_side
from hts.checking.govern.foreseen import Unforeseen
from hts.checking.rules.examples import changed
from hts.language.model import Loader, Spec
from hts.language.model.defaults import DefaultBook, Defaults
from tests.rows import each_row
from tests.texts import spec_of

MADE = "  made in    field\n"
TEST = 'qualified  "PQR-31" hold 8 h condition below lower critical'
BY = 'process "GTAW and SMAW"'
BETWEEN = "between    pipe and pipe"
COMPOSITION = "  composition C 0.25 %, Mn 0.80 %, Cr 0.10 %\n"
OTHER = 'material other {\n  grade "A106-B"\n  composition C 0.25 %, Mn 0.80 %, Cr 0.10 %\n}\n\n'


def filler(inside: str, words: str = "") -> tuple[tuple[str, str], ...]:
    block = f"filler rod{words} {{\n{inside}\n}}\n\njoint W12 {{"
    return ((BY, 'process "GTAW" filler rod'), ("joint W12 {", block))


@each_row(
    ("base", "changes", "side", "facts"),
    [
        ("butt", (), 1, {"heavy_wall": None, "earlier_treatments": 0, "earlier_hold": "0 h",
                         "toughness_tested": "no", "single_pass_qualified": None, "zones": 2,
                         "qualified_hold": None, "service": None, "treatment_asked_for": None,
                         "sour_service": None, "filler_family": None, "cycle_number": 1}),
        ("butt", ((MADE, MADE + "  heavy section flange 60 mm downstream wall 55 mm over 90 mm\n"
                   "  heavy section valve 60 mm upstream wall 40 mm over 90 mm\n"
                   '  already heated 2 h at 690 degC "x"\n  already heated 90 min at 690 degC "y"\n'
                   "  service amine, wet hydrogen sulphide\n"
                   "  heat treatment asked for by owner\n"),),
         0, {"heavy_wall": "55 mm", "earlier_treatments": 2, "earlier_hold": "3.5 h",
             "service": "amine and wet-hydrogen-sulphide", "sour_service": "yes",
             "amine_or_caustic_service": "yes", "lethal_service": "no",
             "carbonate_service": "no", "treatment_asked_for": "yes"}),
        ("butt", ((MADE, MADE + "  service caustic\n"),), 0,
         {"service": "caustic", "amine_or_caustic_service": "yes", "sour_service": "no"}),
        # Of those with toughness the shortest hold, of all the highest preheat, of those without
        # heat treatment the greatest thickness.
        ("butt", ((TEST, f"{TEST} with toughness\n"
                   '  qualified "P2" hold 6 h with toughness preheat 120 degC thickness 12 mm '
                   "condition without heat treatment\n"
                   '  qualified "P3" hold 4 h preheat 150 degC thickness 20 mm '
                   "condition without heat treatment single pass\n"
                   '  qualified "P4" thickness 30 mm'),), 0,
         {"toughness_tested": "yes", "qualified_hold": "6 h", "qualified_preheat": "150 degC",
          "qualified_thickness": "20 mm", "single_pass_qualified": "yes"}),
        ("butt", ((f"  {TEST}\n", ""),), 0, {"toughness_tested": None}),
        # Sides of two metals: the least of both, and nothing where one does not tell.
        ("butt", ((BETWEEN, "between pipe and other"), ("joint W12 {", f"{OTHER}joint W12 {{")), 1,
         {"least_chromium": "0.10 %", "chromium": "0.10 %", "grade": "A106-B", "p_number": "1",
          "lowest_p_number": "1", "highest_p_number": "5A", "carbon": "0.25 %"}),
        ("butt", ((BETWEEN, "between pipe and other"),
                  ("joint W12 {", f"{OTHER}joint W12 {{".replace('grade "A106-B"', ""))), 0,
         {"lowest_p_number": None, "highest_p_number": None, "p_number": "5A"}),
        ("branch", (), 0, {"run_wall": "25.4 mm", "branch_wall": "21 mm", "wall": "25.4 mm",
                           "thicker_wall": "25.4 mm", "thinner_wall": "21 mm", "part": None,
                           "fillet_cover": "10 mm", "branch_sketch": "1", "nominal_size": "12"}),
        # 323.8 and 273.0 mm of ASME B36.10, less two walls; 273.0 pi = 857.66.
        ("branch", (), 1, {"inside_diameter": "231 mm", "inside_radius": "115.5 mm",
                           "girth": "857.7 mm", "outside_diameter": "273.0 mm", "wall": "21 mm"}),
        # Of nickel and manganese as stated or by analysis whichever is more.
        ("butt", filler('  classification "ER90S-B9"\n  lower critical 790 degC\n'
                        "  composition C 0.1 %, Cr 9.0 %, Ni 0.6 %, Mn 0.5 %\n"
                        "  nickel and manganese 1.0 %"), 0,
         {"filler_nickel_manganese": "1.1 %", "filler_chromium": "9.0 %", "filler_family": "B9",
          "filler_lower_critical": "790 degC", "filler_kind": None, "heat_input": None}),
        ("butt", filler("  composition Ni 0.3 %, Mn 0.5 %\n  nickel and manganese 1.0 %"), 0,
         {"filler_nickel_manganese": "1.0 %", "filler_chromium": None, "filler_family": None}),
        ("butt", filler("  composition Ni 0.3 %", " nickel based"), 0,
         {"filler_nickel_manganese": None, "filler_kind": "nickel"}),
        ("butt", ((BY, f"{BY} position 2G, 5G"),), 0, {"position": "2G and 5G"}),
        ("butt", ((BY, f"{BY} position 2G"),), 0, {"position": "2G"}),
        # Sides that differ in one thing alone: the wall, the pipe, the steel.
        ("branch", (("NPS 10 wall 21 mm", "NPS 12 wall 21 mm"),), 1,
         {"wall": "21 mm", "inside_diameter": "281.8 mm", "nominal_size": "12"}),
        ("branch", (("NPS 10 wall 21 mm", "NPS 10 wall 25.4 mm"),), 1,
         {"wall": "25.4 mm", "outside_diameter": "273.0 mm", "nominal_size": "10"}),
        ("branch", (("NPS 10 wall 21 mm", "NPS 12 wall 25.4 mm"),
                    ("branch of pipe", "branch of other"),
                    ("joint W12 {", f"{OTHER}joint W12 {{")), 1,
         {"carbon": "0.25 %", "grade": "A106-B", "p_number": "1"}),
        ("butt", ((BETWEEN, "between pipe and other"),
                  ("joint W12 {", f"{OTHER}joint W12 {{".replace(COMPOSITION, ""))), 1,
         {"least_chromium": None, "carbon_equivalent": None, "pcm": None, "chromium": None}),
        # A wall of the table is in the units the joint is written in (ASME B36.10M: 10.97 of
        # 168.3 mm, which are 0.43189 and 6.62598 in; 25.40 of 323.8 mm).
        ("preheat", (("  wall       0.432 in measured\n", ""),), 0,
         {"wall": "0.4319 in", "outside_diameter": "6.626 in"}),
        ("preheat", (("  wall       0.432 in measured\n", ""), ("3/4 in", "19 mm")), 0,
         {"wall": "10.97 mm", "outside_diameter": "168.3 mm"}),
        ("butt", (("  wall       25.4 mm measured\n", ""),), 0,
         {"wall": "25.40 mm", "outside_diameter": "323.8 mm"}),
        # Two holds: both ends of all of them.
        ("butt", (("  hold  700 .. 730 degC for 2 h\n",
                   "  hold  700 .. 720 degC for 1 h\n  heat to 720 degC\n"
                   "  hold  710 .. 740 degC for 1 h\n"),), 0,
         {"hold_minimum": "700 degC", "hold_maximum": "740 degC"}),
        ("preheat", (), 0, {"hold_minimum": None, "cycle_number": None, "zones": None,
                            "preheat": "200 degF", "wall": "0.432 in", "heating_method": None}),
    ],
)  # fmt: skip
def test_facts(
    base: str, changes: tuple[tuple[str, str], ...], side: int, facts: dict[str, object]
) -> None:
    spec = spec_of(changed(base, changes))
    assert [finding.message for finding in spec.findings] == []
    (joint,) = spec.joints.values()
    found = list(facts_by_side(joint, next(iter(joint.cycles), None)).values())[side]
    told = {name: str(found[name]) if name in found else None for name in facts}
    assert told == {name: None if fact is None else str(fact) for name, fact in facts.items()}


GOVERNED = "governed by  asme-b31.3 edition 2018, local-heating"


@each_row(
    ("books", "names", "told"),
    [
        ("asme-b31.3 edition 2018, local-heating", ["asme-b31.3", "local-heating"], []),
        ("local-heating", ["local-heating"], []),
        ("asme-b31.3, local-heating", ["local-heating"], ["L103 write asme-b31.3 edition 20"]),
        ("asme-b31.3 edition 1907", [], ["L102 the editions here are 20"]),
        ("local-heating edition 3", [], ["L102 leave the edition out"]),
        ("asme-b31-3 edition 2018", [], ["L101 did you mean asme-b31.3? there are: "]),
        ("zzzzzzzz", [], ["L101 there are: "]),
    ],
)
def test_books_a_text_names(books: str, names: list[str], told: list[str]) -> None:
    """Whatever is said of a book is said of the one a procedure was written to as well."""
    by_job = spec_of(changed("butt", ((GOVERNED, f"governed by  {books}"),)))
    by_procedure = spec_of(
        changed("procedure", (("revision         2", f"governed by {books}\n  revision 2"),))
    )
    for spec, whose in ((by_job, None), (by_procedure, "P-07")):
        report = Report()
        if whose is None:
            found = sources.authorities(spec, report)
        else:
            found = sources.written_to(spec.procedures[0], spec, report)
        assert [each.name for each in found] == names
        said = [f"{finding.kind.code} {finding.help}" for finding in report.findings]
        assert len(said) == len(told)
        assert all(one.startswith(start) for one, start in zip(said, told, strict=True)), said
        assert all(f"{whose or spec.file.job.name}/" in each.address for each in report.findings)  # type: ignore[union-attr]


def test_procedures_govern_after_the_books() -> None:
    spec = spec_of(changed("procedure", ()))
    report = Report()
    assert sources.written_to(spec.procedures[0], spec, report) == []
    told = [(each.name, each.title, each.edition, each.is_book)
            for each in sources.authorities(spec, report)]  # fmt: skip
    assert told[-1] == ("P-07", "Local heat treatment of piping welds", "2", False)
    assert [is_book for _, _, _, is_book in told] == [True, True, False] and not report.findings
    bare = changed("procedure", ((' "Local heat treatment of piping welds"', ""),))
    assert sources.of_procedure(spec_of(bare).procedures[0]).title == "P-07"


def test_where_a_configuration_names_the_books() -> None:
    """Told of those a text leaves to it, and of none that the text names itself."""
    named = Defaults((DefaultBook("asme-b31.3", "2018", "hts.toml:1:10"),))
    written = changed("butt", ())
    for text, configured in (
        (written, ["", ""]),
        (written.replace(GOVERNED, ""), ["hts.toml:1:10"]),
    ):
        spec = Spec(Source(text, "a.hts"), Loader("/"), named)
        assert [each.configured for each in sources.authorities(spec, Report())] == configured


def test_what_a_check_has_asked_of_predictions() -> None:
    case = Case(spec_of(changed("butt", ())))
    (joint,) = case.joints()
    (treatment,) = case.treatments(joint)
    assert not case.has_foreseen(treatment) and not case.waits_for_installation
    for missing in (False, True):
        case._foreseen[treatment.address] = Unforeseen("not here", not_installed=missing)
        assert case.has_foreseen(treatment) and case.waits_for_installation is missing
    foreseen: Any = case.foreseen(treatment)
    assert foreseen.reason == "not here"
