"""What each fix would write, on a few words each; whether it is read rightly afterwards is tried by
`fixes_for`, and what it changes where it is applied (`tests/editor/test_fixes.py`)."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from hts.base.findings import LAYOUT, OFFERED, Finding, Fix, Kind, Label
from hts.base.text import Source
from hts.checking.fixes import fixes, fixes_for, fixes_of, layout, words
from tests.rows import each_row
from tests.texts import spec_of

Maker = Callable[[Finding], Iterator[Fix]]
KIND = Kind("X101", "odd", "error", "Summary.", "Why.", "Fix.")


def found(text: str, message: str = "odd", help: str = "", name: str = "a.hts") -> Finding:
    """One at what stands between the marks « and » of a text."""
    start, end = text.index("«"), text.index("»") - 1
    source = Source(text.replace("«", "").replace("»", ""), name)
    return Finding(KIND, message, Label(source.span(start, end)), help=help)


def made(maker: Maker, finding: Finding) -> list[str]:
    return [fix.applied(finding.source.text) for fix in maker(finding)]


@each_row(
    ("text", "message", "help", "texts"),
    [
        ("kind «gurth butt»", "odd", "did you mean girth butt?", ["kind girth butt",
         "kind girth butt butt", "kind girth butt"]),
        # What the message quotes goes first.
        ("«use recrder R1»", "'recrder' is not a word", "did you mean `recorder`?",
         ["use recorder R1", "recorder", "recorder recrder R1", "recorder R1"]),
        ("«from R2»", "no recorder is named 'R2'", "did you mean 'R1'?",
         ["from R1", "R1", "R1 R2", "R1"]),
        ("«from R2»", "there is no recorder 'R2'", "did you mean 'R1'?",
         ["from R1", "R1", "R1 R2", "R1"]),
        ("«R2»", "'R9' is not named", "did you mean R1?", ["R1", "R1"]),
        ("«R2»", "odd", "write it", []),
    ],
)  # fmt: skip
def test_what_was_meant(text: str, message: str, help: str, texts: list[str]) -> None:
    assert made(words.meant, found(text, message, help)) == texts


@each_row(
    ("maker", "text", "help", "texts"),
    [
        (words.in_place_of, "«TC» K, TC N", "write `thermocouples` in place of `TC`",
         ["thermocouples K, TC N"]),
        (words.in_place_of, "TC «K»", "write `type` in place of `TC`", []),
        (words.in_place_of, "«TC»", "write it out", []),
        (words.in_place_of, f"«a»{' ' * 197}TC", "write `b` in place of `TC`",
         [f"a{' ' * 197}b"]),
        (words.in_place_of, f"«a»{' ' * 198}TC", "write `b` in place of `TC`", []),
        # Dates, each that may be meant, over all of what was written.
        (words.other_form, "on «3»/4/2026 for", "write the date as 2026-04-03 or 2026-03-04",
         ["on 2026-04-03 for", "on 2026-03-04 for"]),
        (words.other_form, "on «21» Nov 2026, x", "write the date 2026-11-21",
         ["on 2026-11-21, x"]),
        (words.other_form, "on «x»", "write the date as 2026-04-03", []),
        (words.other_form, "on «3»/4/2026", "write the day as 2026-04-03", []),
        (words.other_form, "at «12» o'clock top", "write the place on the clock as 12:00",
         ["at 12:00 o'clock top", "at 12:00 top"]),
        (words.other_form, "at «9»", "write the place on the clock with its minutes: 9:00",
         ["at 9:00", "at 9:00"]),
        (words.other_form, "hold «700 to» 730 degC for", "write the range as 700 .. 730 degC",
         ["hold 700 .. 730 degC 730 degC for", "hold 700 .. 730 degC for"]),
        (words.other_form, "hold «700-730 degC»", "write the range as 700 .. 730 degC",
         ["hold 700 .. 730 degC"]),
        (words.other_form, "by «own»", "write my-book", ["by my-book"]),
        (words.other_form, "by «own»", "write my-book edition 3", ["by my-book edition 3"]),
        (words.other_form, "«–»5 K", "write - in its place", ["-5 K"]),
        (words.other_form, "5«\u00a0»K", "write an ordinary blank in its place", ["5 K"]),
        (words.without_quotes, 'kind «"girth butt"»', "", ["kind girth butt"]),
        (words.without_quotes, 'kind «""»', "", []), (words.without_quotes, 'kind «"x»', "", []),
        (words.without_quotes, "kind «xyx»", "", []),
        (words.without_quotes, 'kind «"x"»', "", ["kind x"]),
        (words.turned_round, "hold «730 .. 700 degC» for", "", ["hold 700 .. 730 degC for"]),
        (words.turned_round, "hold «730 degC .. 700 degC»", "", ["hold 700 degC .. 730 degC"]),
        (words.turned_round, "hold «1 h .. 30 min»", "", ["hold 30 min .. 1 h"]),
        (words.turned_round, "hold «730 … 700 degC»", "", ["hold 700 .. 730 degC"]),
        (words.turned_round, "hold «730»", "", []),
        (words.decimal_point, "wall 25«,»4 mm", "", ["wall 25.4 mm"]),
        (words.width_counts, "band «75 mm» x", "",
         ["band 75 mm total x", "band 75 mm each side x"]),
        (words.rate_by_rule, "«heat to 700 degC»\n", "", ["heat to 700 degC at most by rule\n"]),
        (words.by_rule, "thickness «25.4 mm»", "", ["thickness by rule"]),
        (words.by_rule, "hold «700 .. 730 degC»", "", ["hold by rule"]),
        (words.by_rule, "wall «1 1/2 in measured»", "", ["wall by rule measured"]),
        (words.by_rule, "«thick»", "", []),
        (words.language_version, "«spec 2»", "write spec 1", ["spec 1"]),
        (words.language_version, "«spec»", "write spec 1", []),
        (words.language_version, "«spec 2»", "write it", []),
    ],
)  # fmt: skip
def test_other_words(maker: Maker, text: str, help: str, texts: list[str]) -> None:
    assert made(maker, found(text, help=help)) == texts


@each_row(
    ("text", "help", "texts"),
    [
        ("for «2 h»", "make it 150 min (2 h 30 min) or more", ["for 150 min"]),
        ("«at most 6 h»", "make it 5 h or less", ["at most 5 h"]),
        ("«T1 8 mm»", "make it 9 mm or more", ["T1 9 mm"]), ("«T1»", "make it 9 mm or more", []),
        # The limit of a width counts the whole.
        ("band «75 mm each side»", "make it 200 mm or more", ["band 200 mm total"]),
        ("hold «700 .. 730 degC»", "make it 705 degC or more", ["hold 705 .. 730 degC"]),
        ("hold «700 .. 730 degC»", "make it 720 degC or less", ["hold 700 .. 720 degC"]),
        ("hold «700 degC .. 730 degC»", "make it 705 degC or more",
         ["hold 705 degC .. 730 degC"]),
        ("hold «1300 .. 730 degF»", "make it 705 degC or more", ["hold 705 degC .. 730 degF"]),
        ("hold «700 … 730 degC»", "make it 720 degC or less", ["hold 700 … 720 degC"]),
        ("«2 h»", "make it longer", []), ("wall «1 1/2 in»", "make it 2 in or more", ["wall 2 in"]),
    ],
)  # fmt: skip
def test_the_value_that_just_keeps_to_a_limit(text: str, help: str, texts: list[str]) -> None:
    assert made(words.bound, found(text, help=help)) == texts


def test_books_in_each_of_their_editions() -> None:
    assert words._editions("local-heating") == ["local-heating"]
    assert words._editions("no-such-book edition 1") == ["no-such-book edition 1"]
    told = words._editions("asme-b31.3 edition 1907")
    assert len(told) > 1 and all(each.startswith("asme-b31.3 edition 20") for each in told)


@each_row(
    ("maker", "text", "texts"),
    [
        (layout.brace_on_own_line, "joint W1\n«{»\n  x\n", ["joint W1 {\n  x\n"]),
        (layout.brace_on_own_line, "joint W1 # {x}\n\n# y\n«{» x\n",
         ["joint W1 { # {x}\n\n# y\n x\n"]),
        (layout.brace_on_own_line, "joint W1\n# y\n«{»\n", ["joint W1 {\n# y\n"]),
        (layout.brace_on_own_line, 'job "a # b"\n«{»\n', ['job "a # b" {\n']),
        (layout.brace_on_own_line, "joint W1\r\n  «{»\r\n}\r\n", ["joint W1 {\r\n}\r\n"]),
        (layout.brace_on_own_line, "\n# x\n«{»\n", []),
        (layout.brace_on_own_line, "a\n«{»", ["a {\n"]),
        (layout.missing_line_break, "a 1 «b» 2", ["a 1\nb 2"]),
        (layout.missing_line_break, "x {\n  a 1 \t«b» 2\n", ["x {\n  a 1\n  b 2\n"]),
        (layout.missing_line_break, "x {\r\n\ta 1«b» 2\r\n", ["x {\r\n\ta 1\r\n\tb 2\r\n"]),
        (layout.missing_line_break, "\r\na 1 «b» 2", ["\r\na 1\r\nb 2"]),
        (layout.hidden_character, "wall «\u200b»25", ["wall 25"]),
        (layout.hidden_character, 'say "x" # «\u200b»y', []),
        (layout.hidden_character, 'say "x" "#«\u200b»y"', ['say "x" "#y"']),
        (layout.hidden_character, 'say "#«\u200b»x"', ['say "#x"']),
        (layout.hidden_character, "a # «\u200b»x", []), (layout.hidden_character, "wall «2»5", []),
        (layout.stray_brace, "a\n  «}»\nb", ["a\nb"]),
        (layout.stray_brace, "a «}» b\n", ["a  b\n"]),
        (layout.stray_brace, "a\n«}»", ["a\n"]),
    ],
)  # fmt: skip
def test_signs_moved_about(maker: Maker, text: str, texts: list[str]) -> None:
    finding = found(text)
    assert made(maker, finding) == texts
    moves = maker in (layout.brace_on_own_line, layout.missing_line_break)
    assert all(fix.kind == (LAYOUT if moves else OFFERED) for fix in maker(finding))


@each_row(
    ("lines", "left"),
    [
        (["  wall 25 mm", "  wall  25 mm"], ["  wall 25 mm"]),
        (["wall 25 mm", "kind x", "wall 25 mm"], ["wall 25 mm", "kind x"]),
        (["", "wall 25 mm", "wall 25 mm"], ["", "wall 25 mm"]),
        (["wall 25 mm", "wall 26 mm"], None), (["wall 25 mm", "wall 25 mm # x"], None),
        (["wall 25 mm,", "wall 25 mm, "], None), (["a {", "a {"], None),
    ],
)  # fmt: skip
def test_what_is_said_twice(lines: list[str], left: list[str] | None) -> None:
    text = "\n".join([*lines, ""])
    source = Source(text, "a.hts")
    at = text.rstrip().rfind("\n") + 1
    begins = len(text) - len(text.lstrip())
    first, second = (source.span(start, start + 4) for start in (begins, at))
    twice = Finding(KIND, "x", Label(second), others=[Label(first)])
    wanted = [] if left is None else ["\n".join([*left, ""])]
    assert made(layout.said_twice, twice) == wanted
    assert made(layout.said_twice, Finding(KIND, "x", Label(second))) == []


def test_fixes_that_would_not_be_read_are_left_out() -> None:
    """Of what may be meant what is read with fewer findings stays, and nothing in a weld list."""
    spec = spec_of("spec 1\njoint W1 {\n  kind gurth butt\n}\n")
    (finding,) = [each for each in spec.findings if "girth butt" in each.help]
    (fix,) = fixes_for(finding)
    assert fix.applied(spec.source.text) == "spec 1\njoint W1 {\n  kind girth butt\n}\n"
    assert fixes_for(finding, LAYOUT) == () and fixes_for(finding, OFFERED) == (fix,)
    assert fixes_of([finding]) == [(fix,)]
    assert fixes_for(found("kind «gurth»", help="did you mean girth?", name="welds.CSV")) == ()
    left = {"example.hts": 0}
    assert fixes._found(finding, None, left) == ()


@each_row(
    ("kind", "new", "reads"),
    [
        # What could not be read has to be read; of anything else no more may be found than before.
        ("gurth butt", "girth butt", True), ("gurth butt", "gurth butt", False),
        ("gurth butt", "gorth butt", False), ("girth butt", "girth butt", True),
        ("girth butt", "gurth butt", False), ("girth butt", "fillet", True),
    ],
)  # fmt: skip
def test_whether_a_fix_is_read(kind: str, new: str, reads: bool) -> None:
    source = Source(f"spec 1\njoint W1 {{\n  kind {kind}\n}}\n", "a.hts")
    at = source.text.index(kind)
    wrong = [each for each in spec_of(source.text).findings if each.kind.name == "unknown-choice"]
    assert len(wrong) == (kind == "gurth butt")
    here = Label(source.span(at, at + len(kind)))
    finding = (
        Finding(wrong[0].kind, wrong[0].message, here) if wrong else Finding(KIND, "odd", here)
    )
    assert fixes._reads(finding, words._write(new, at, at + len(kind))) is reads


@each_row(
    ("text", "title"),
    [("wall 125«,»45 mm", "write 125.45"), ("5«,»0", "write 5.0")],
)
def test_the_number_a_decimal_point_makes(text: str, title: str) -> None:
    assert [fix.title for fix in words.decimal_point(found(text))] == [title]


@each_row(
    ("waivers", "left"),
    [
        ('waive x on W1 {\n  reason "a"\n}\n', ""),
        ('waive x on W1 {\n  reason "a"  # why\n}\n', None),
        ("\nwaive x on W1 {\n}\n\nwaive «y» on W2 {\n}\n", "\nwaive x on W1 {\n}\n\n"),
    ],
)
def test_a_waiver_that_waives_nothing(waivers: str, left: str | None) -> None:
    marked = waivers if "«" in waivers else waivers.replace("x", "«x»", 1)
    head = "spec 1\n"
    for before in (head, f"\n{head}", "\n"):
        expected = [] if left is None else [before + left]
        assert made(fixes._without_waiver, found(before + marked)) == expected
