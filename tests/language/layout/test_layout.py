"""Texts before and after they are laid out. The layout is this project's own: there is no
published source for it beyond the language reference."""

from __future__ import annotations

from hts.base.findings import Report
from hts.base.text import Source
from hts.language.layout import settled
from tests.rows import each_row


def laid_out(text: str) -> str:
    report = Report()
    after = settled(Source(text, "text.hts"), report)
    assert after is not None, report.findings
    return after


CASES = {
    "indent": (
        'job "x" {\nnumber "HT-1"\n\thistory {\n A on 2026-10-02 "First"\n}\n      }\n',
        'job "x" {\n  number "HT-1"\n  history {\n    A on 2026-10-02 "First"\n  }\n}\n',
    ),
    "one entry on a line": (
        "preheat W1 { at least 95 degC }",
        "preheat W1 {\n  at least 95 degC\n}\n",
    ),
    "an empty block": ("thermocouples type K { }", "thermocouples type K {\n}\n"),
    "blank lines": (
        '\n\nspec 1\n\n\n\nuse "a.hts"\njoint W1 {\n\n  kind girth butt\n\n\n'
        "  axis horizontal\n\n}\n\n\n",
        'spec 1\n\nuse "a.hts"\n\njoint W1 {\n  kind girth butt\n\n  axis horizontal\n}\n',
    ),
    "blocks at top level stand apart": (
        "spec 1\njoint W1 {\n}\n# about W2\n# and more\njoint W2 {\n}\nspec 1\n",
        "spec 1\n\njoint W1 {\n}\n\n# about W2\n# and more\njoint W2 {\n}\n\nspec 1\n",
    ),
    "blanks between tokens": (
        "zone   top from\t9:00 to 3:00\n",
        "zone top from 9:00 to 3:00\n",
    ),
    "commas": (
        "composition C 0.11 % ,Mn 0.45 %  ,  Si 0.25 %\n",
        "composition C 0.11 %, Mn 0.45 %, Si 0.25 %\n",
    ),
    "signs": (
        "hold 690..720 degC for 2 h\nerror +/-1.5 degC\n"
        "hold time at least 2.5 min/mm*t when t<=60 mm\n",
        "hold 690 .. 720 degC for 2 h\nerror +/- 1.5 degC\n"
        "hold time at least 2.5 min/mm * t when t <= 60 mm\n",
    ),
    "addresses": (
        "waive missing-spare on W12 / thermocouples/T2 {\n}\n",
        "waive missing-spare on W12/thermocouples/T2 {\n}\n",
    ),
    "brackets": (
        "rate at most min ( 220 degC/h , 5500 mm*degC/h/t ) when p_number in( 1,  3 )\n",
        "rate at most min(220 degC/h, 5500 mm * degC / h / t) when p_number in (1, 3)\n",
    ),
    "numbers and units": (
        "wall 25.4mm\nwall 1  1/2in\nhold for 2h  30min\nmargin 10%\nband 6   t each side\n"
        "band by   rule\n",
        "wall 25.4 mm\nwall 1 1/2 in\nhold for 2 h 30 min\nmargin 10 %\nband 6 t each side\n"
        "band by rule\n",
    ),
    "other spellings": (
        "heat to 705°C at most 400 °F/h\nhold 690…720 °C for 1 h\nerror ±1.5°C\n",
        "heat to 705 degC at most 400 degF/h\nhold 690 .. 720 degC for 1 h\nerror +/- 1.5 degC\n",
    ),
    "names and standards stay whole": (
        "colours IEC   60584-3\npipe NPS 12 schedule 80S\nmaterial 5A\n",
        "colours IEC 60584-3\npipe NPS 12 schedule 80S\nmaterial 5A\n",
    ),
    "text stays as it is": (
        'check "two  blanks, a # sign, 25.4mm ± and {"\n',
        'check "two  blanks, a # sign, 25.4mm ± and {"\n',
    ),
    "comments of their own": (
        '# file\nspec 1\njob "x" {\n      # number\n  number "1"\n\n\n# last\n   }\n  # end',
        '# file\nspec 1\n\njob "x" {\n  # number\n  number "1"\n\n  # last\n}\n\n# end\n',
    ),
    "comments behind the text": (
        "spec 1# version\njoint W1 {# opens\n kind girth butt     # kind\n}     # closes\n",
        "spec 1  # version\n\njoint W1 {  # opens\n  kind girth butt  # kind\n}  # closes\n",
    ),
    "a comment in a block on one line": (
        "joint W1 { kind girth butt # kind\n}\n",
        "joint W1 {\n  kind girth butt  # kind\n}\n",
    ),
    "an entry goes on after a comma": (
        'joint W1 {\n  nearby "valve" 1 m,   # seat\n # warm\n\n at most 200 degC,\n'
        "     protected\n}\n",
        'joint W1 {\n  nearby "valve" 1 m,  # seat\n      # warm\n      at most 200 degC,\n'
        "      protected\n}\n",
    ),
    "an entry goes on inside brackets": (
        "hold time at least (2 h # base\n+ 1 h\n ) when t > 50 mm\n",
        "hold time at least (2 h  # base\n    + 1 h\n    ) when t > 50 mm\n",
    ),
    "a comma before the end of a block": (
        "joint W1 {\n follows P-07,\n\n # all\n}\n",
        "joint W1 {\n  follows P-07,\n\n  # all\n}\n",
    ),
    "a block opened after a comma": (
        "preheat W1,\nW2, {\n at least 95 degC\n}\n",
        "preheat W1,\n    W2, {\n  at least 95 degC\n}\n",
    ),
    "line ends of the first line": (
        'spec 1\r\nuse "a"\nuse "b"',
        'spec 1\r\nuse "a"\r\nuse "b"\r\n',
    ),
    "nothing": ("", ""),
    "nothing but blanks": (" \n\t\n", ""),
    "only a comment": ("  # to do", "# to do\n"),
}


@each_row("name", CASES)
def test_before_and_after(name: str) -> None:
    before, after = CASES[name]
    assert laid_out(before) == after
    assert laid_out(after) == after


@each_row(
    "line",
    [
        "hold time at least 6 t/2",  # with blanks, 6 t becomes a multiple of the wall
        "a 5 deg  C",  # with one blank, a unit written wrongly
        "band by rule- 5",  # with a blank, by rule
        "a -5A",  # with a blank, amperes
    ],
)
def test_blanks_that_say_something_stay(line: str) -> None:
    assert laid_out(f"  {line}\n") == f"{line}\n"


@each_row("text", ["joint W1 {", 'check "open', "wall 25,4 mm", "a .. 5\n", "a\n{\n}"])
def test_a_text_with_errors_of_form_is_left_alone(text: str) -> None:
    report = Report()
    assert settled(Source(text, "text.hts"), report) is None
    assert report.findings
    assert all(finding.kind.code.startswith("S") for finding in report.findings)
