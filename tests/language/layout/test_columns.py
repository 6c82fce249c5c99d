"""Lines that are read as a table stand in columns."""

from __future__ import annotations

from hts.language.layout.columns import LISTS, Openers
from tests.language.layout.test_layout import laid_out
from tests.rows import each_row


def block(opening: str, *lines: str) -> str:
    return "\n".join([f"{opening} {{", *(f"  {line}".rstrip() for line in lines), "}", ""])


THERMOCOUPLES = (
    "attached            capacitor discharge energy 100 J",
    "reference junction  25 degC",
    "T1   controls top          at 12:00   on weld           channel 1   control channel 1",
    "T1S  spare for T1          at 12:15   on weld",
    "T3   monitors soak edge    at 12:00,  42 mm downstream  channel 3",
    "T10  monitors nearby item  arc 40 mm  surface inside    channel 10"
    "                     lead 2 m",
)
STEPS = (
    "recorded by           R1",
    "heat to 315 degC",
    "heat to 705 degC      at most 200 degC/h",
    "hold 690 .. 720 degC  for by rule",
    "cool in still air",
    "rate margin           10 %",
    "margin below lower critical  20 K",
)
ZONES = (
    "soak band    by rule",
    "zone top     from 9:00 to 3:00  power 10.8 kW  heaters 4",
    "zone bottom  from 3:00 to 9:00  power 9 kW     heaters 4",
    "bore         drained and dry",
)


def in_joint(*lines: str) -> str:
    return block("joint W1", *lines)


@each_row(
    "text",
    [
        in_joint("kind       girth butt", "cap width  30 mm", "made in    field"),
        in_joint("thermocouples type K class 1 {", *(f"  {t}" for t in THERMOCOUPLES), "}"),
        in_joint("heating by resistance {", *(f"  {z}" for z in ZONES), "}"),
        block("cycle stress-relief for W1", *STEPS),
        block(
            'job "x"',
            "history {",
            '  A   on 2026-10-02  "First"',
            '  B2  on 2026-11-20  "Second" section "Joint"',
            "}",
        ),
    ],
)
def test_columns(text: str) -> None:
    squeezed = "\n".join(" ".join(line.split()) for line in text.split("\n"))
    assert laid_out(squeezed) == text
    assert laid_out(text) == text


def test_a_blank_line_or_a_comment_ends_a_table() -> None:
    text = in_joint(
        "kind  girth butt",
        "axis  horizontal",
        "",
        "cap width  30 mm",
        "made in    field",
        "# seen from the inlet",
        "datum   top",
        "viewed  with flow",
    )
    assert laid_out(text) == text


def test_a_lone_line_is_no_table() -> None:
    assert laid_out(in_joint("cap width    30 mm")) == in_joint("cap width 30 mm")


def test_lines_at_top_level_are_no_table() -> None:
    assert laid_out('spec   1\nuse    "a.hts"\n') == 'spec 1\nuse "a.hts"\n'


def test_a_continued_entry_stands_in_the_table() -> None:
    text = in_joint(
        "kind       girth butt",
        'nearby     "valve" 1 m,',
        "    at most 200 degC",
        "cap width  30 mm",
    )
    assert laid_out(text) == text


def test_an_entry_of_another_language_stands_outside_the_table() -> None:
    text = in_joint("kind       girth butt", "colour red", "cap width  30 mm")
    assert laid_out(text) == text


def test_comments_behind_the_text_do_not_end_a_table() -> None:
    text = in_joint("kind       girth butt  # as built", "cap width  30 mm  # measured")
    assert laid_out(text) == text


def test_every_word_that_opens_a_column_is_in_the_vocabulary() -> None:
    known: dict[Openers, set[str]] = {}
    for entry, openers in LISTS.items():
        known.setdefault(openers, set()).update(entry.labels)
    for openers, words in known.items():
        assert set().union(*openers) - {",", "TEXT"} <= words
