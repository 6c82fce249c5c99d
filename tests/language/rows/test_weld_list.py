"""Weld lists: rows of a table as joints."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hts.base.findings import Finding, Kind, Label
from hts.base.text import BYTE_ORDER_MARK
from hts.checking.checker.gathered import gathered
from hts.checking.fixes import fixes_for
from hts.job.comparison import compare
from hts.job.compiler import compile_spec
from hts.job.outputs import job_json
from hts.language.model import Spec
from tests.language.rows.lists import (
    COLUMNS,
    HEADS,
    ROWS,
    findings,
    job,
    spec,
    table,
    told,
    written,
)
from tests.rows import each_row

_PLACES = re.compile(r"(?:job\.hts|welds\.csv) line \d+")


def _document(made: Spec) -> Any:
    """The compiled job but for places, and for how the text itself is put together."""
    document = json.loads(_PLACES.sub("place", job_json.write(compile_spec(made))))
    document["spec"].pop("weld_lists", None)
    return {key: document[key] for key in document if key not in ("fingerprint", "digest")}


def _block(row: tuple[str, ...]) -> str:
    """What a row says, as a person would write it."""
    cells = dict(zip(HEADS, row, strict=True))
    lines = []
    for head, word in (("Line", "line"), ("ISO", "drawing")):
        if cells[head]:
            escaped = cells[head].replace('"', '\\"')
            lines.append(f'{word} "{escaped}"')
    if cells["Size"]:
        lines.append(f"pipe NPS {cells['Size']} schedule {cells['Sch']}")
    if cells["WT [mm]"]:
        lines.append(f"wall {cells['WT [mm]']} mm measured")
    if cells["Service"]:
        lines.append(f"service {cells['Service']}")
    return "".join(f"  {line}\n" for line in lines)


_WORDS = st.sampled_from(["", "12-P-1", "TI-ISO 7 rev 2", 'say "A", B', "p\u00e5l 3"])
_ROW = st.tuples(
    _WORDS,
    _WORDS,
    st.sampled_from([("", ""), ("12", "120"), ("10", "160")]),
    st.sampled_from(["", "25.4", "27", "29.15"]),
    st.sampled_from(["", "steam", "steam, hydrogen"]),
).map(lambda r: (r[0], r[1], *r[2], r[3], r[4], "x"))


@settings(max_examples=12)
@given(st.lists(_ROW, min_size=1, max_size=4))
def test_a_table_and_the_same_joints_written_out_give_one_job(
    cells: list[tuple[str, ...]],
) -> None:
    rows = [(f"W{100 + n}", *row) for n, row in enumerate(cells)]
    listed = spec(job(rows=len(rows)), table(rows))
    by_hand = spec(written({row[0]: _block(row) for row in rows}), None)
    assert listed.findings == [] == by_hand.findings
    assert _document(listed) == _document(by_hand)


@pytest.mark.parametrize(
    ("welds", "columns"),
    [
        (BYTE_ORDER_MARK + table(), COLUMNS),
        (table().replace("\r\n", "\n"), COLUMNS),
        (table(separator=";"), COLUMNS + "  separator semicolon\n"),
        ("sep=;\r\n" + table(separator=";"), COLUMNS + "  separator semicolon\n"),
        (table(separator="\t"), COLUMNS + "  separator tab\n"),
        (
            table([[*r[:5], r[5].replace(".", ","), *r[6:]] for r in ROWS], separator=";"),
            COLUMNS + "  separator semicolon, decimal comma\n",
        ),
        (
            # Every column in another order, every cell in quotes.
            "".join(
                ",".join('"' + c.replace('"', '""') + '"' for c in reversed(row)) + "\n"
                for row in (HEADS, *ROWS)
            ),
            COLUMNS,
        ),
        (
            table(heads=(*HEADS[:5], "WT", *HEADS[6:])),
            COLUMNS.replace('"WT [mm]" wall measured', '"WT" wall measured in mm'),
        ),
        (
            table([[*r[:5], f"{r[5]} mm", *r[6:]] for r in ROWS], (*HEADS[:5], "WT", *HEADS[6:])),
            COLUMNS.replace('"WT [mm]"', '"WT"'),
        ),
    ],
    ids=["mark", "unix", "semicolon", "sep=", "tab", "decimal comma", "quoted", "in", "in cells"],
)  # fmt: skip
def test_however_the_table_is_saved_it_says_the_same(welds: str, columns: str) -> None:
    plain = spec(job(), table())
    other = spec(job(columns), welds)
    assert plain.findings == [] == other.findings
    assert list(compare(plain, other).changes) == []


CASES = [
    # A mistake, where it is told, and the text pointed at.
    (("25.4", "TBD"), "unclear-cell", 'weld W101, "WT [mm]"', "TBD"),
    (("25.4", "?"), "unclear-cell", 'weld W101, "WT [mm]"', "?"),
    (("25.4", "=A1"), "unclear-cell", 'weld W101, "WT [mm]"', "=A1"),
    (("25.4", "#REF!"), "unclear-cell", 'weld W101, "WT [mm]"', "#REF!"),
    (("25.4", '"25,4"'), "unclear-cell", 'weld W101, "WT [mm]"', "25,4"),
    (("25.4", "1 in"), "unclear-cell", 'weld W101, "WT [mm]"', "1 in"),
    (("25.4", "25.4 # 2"), "unclear-cell", 'weld W101, "WT [mm]"', "25.4 # 2"),
    (("25.4", "25.4 }"), "unclear-cell", 'weld W101, "WT [mm]"', "25.4 }"),
    (("25.4", '"25.4\n26"'), "unclear-cell", 'weld W101, "WT [mm]"', "25.4\n26"),
    (("12-P-1", "12-P\u202e1"), "hidden-character", 'weld W101, "Line"', "12-P\u202e1"),
    (("25.4", "25.4 mn"), "unknown-unit", 'weld W101, "WT [mm]"', "25.4 mn"),
    (("25.4", "-25.4"), "impossible-value", 'weld W101, "WT [mm]"', "-25.4"),
    (("25.4", "by rule"), "wrong-value", 'weld W101, "WT [mm]"', "by rule"),
    (("120,25.4", "12O,25.4"), "unknown-pipe-size", 'weld W101, "Sch"', "12O"),
    ((",steam,", ",stream,"), "unknown-choice", 'weld W101, "Service"', "stream"),
    (("W102", "W101"), "repeated-name", 'weld W101, "Weld no."', "W101"),
    (("W102", ""), "blank-cell", 'row 2, "Weld no."', ""),
    (("W102", "W 102"), "wrong-value", 'weld W 102, "Weld no."', "W 102"),
    (("WT [mm]", "WT [kg]"), "unknown-unit", 'head "WT [kg]"', "WT [kg]"),
    (("Remarks", "Line"), "broken-table", 'head "Line"', "Line"),
    (("W103,12-P-3", "W103"), "broken-table", "line 4", "x"),
    (("25.4", "'25.4"), "unclear-cell", 'weld W101, "WT [mm]"', "'25.4"),
    (("25.4", "2.54E+01"), "unclear-cell", 'weld W101, "WT [mm]"', "2.54E+01"),
    (("25.4", "4-Mar"), "unclear-cell", 'weld W101, "WT [mm]"', "4-Mar"),
    ((",12,120", ",2026-03-04,120"), "unclear-cell", 'weld W101, "Size"', "2026-03-04"),
    ((",12,120", ",1E+01,120"), "unclear-cell", 'weld W101, "Size"', "1E+01"),
    ((",12,120", ",#N/A,120"), "unclear-cell", 'weld W101, "Size"', "#N/A"),
    (("W102", "'W102"), "unclear-cell", """weld 'W102, "Weld no.\"""", "'W102"),
    (("W102", "2-Jan"), "unclear-cell", 'weld 2-Jan, "Weld no."', "2-Jan"),
    (("W102", "w101"), "repeated-name", 'weld w101, "Weld no."', "w101"),
]  # fmt: skip


@each_row(("change", "name", "where", "at"), CASES, ids=[c[0][1] for c in CASES])
def test_a_mistake_in_the_table_is_one_finding_at_its_cell(
    change: tuple[str, str], name: str, where: str, at: str
) -> None:
    columns = COLUMNS
    if change[0].startswith("WT"):
        columns = columns.replace(*change)
    if change[0] == "Remarks":
        columns = columns.replace('  column  "Remarks" not used\n', "")
    found = findings(job(columns), table().replace(*change, 1))
    assert told(found) == [(name, f"welds.csv: {where}", at)]


@each_row(
    ("change", "name", "at"),
    [
        (('"Line" line', '"Lines" line'), "unmatched-column", '"Lines"'),
        (('"Line" line', '"Line" lime'), "unknown-entry", "lime"),
        (('"Line" line', '"Line"'), "missing-value", "column"),
        (('"Line" line', '"Line" line not used'), "missing-value", "column"),
        (('"Line" line', '"Line" drawing'), "repeated-entry", "drawing"),
        (('"Line" line', '"Line" line in mm'), "missing-value", "column"),
        (('wall measured', 'wall measured in degC'), "wrong-dimension", "degC"),
        (('"WT [mm]" wall measured', '"WT [mm]" wall measured in in'), "unclear-cell", "WT [mm]"),
        (('"Line" line', '"Line" spool'), "column-leads-elsewhere", "spool"),
        (("rows    3", "rows    4"), "other-row-count", "rows    4"),
        (("like    W12", "like    W13"), "unknown-name", "W13"),
        (('"welds.csv"', '"weld.csv"'), "unusable-file", '"weld.csv"'),
        (('"welds.csv"', '"../../etc/passwd.csv"'), "unusable-file", '"../../etc/passwd.csv"'),
        (('"welds.csv"', '"job.hts"'), "unusable-file", '"job.hts"'),
        (("each of lines {", "each of line {"), "unknown-name", "each of line"),
        (("each of lines {", "each of lines together {"), "unexpected-value", "together"),
        (("each of lines {", "each of lines like W13 {"), "unknown-name", "W13"),
    ],
    ids=lambda value: value[1] if isinstance(value, tuple) else None,
)  # fmt: skip
def test_a_mistake_in_the_list_is_one_finding(change: tuple[str, str], name: str, at: str) -> None:
    text = job()
    first = text.index("cycle stress-relief") if change[0].startswith("each") else 0
    text = text[:first] + text[first:].replace(*change, 1)
    found = [f for f in findings(text, table()) if f.kind.name != "joint-left-out"]
    assert [(f.kind.name, f.at.span.text) for f in found][:1] == [(name, at)]
    assert len({(f.kind.name, f.message) for f in found}) == 1


TABLES = [
    # What a table is in whole, and where that is told, with the text pointed at.
    (table(separator=";"), "the heads are not parted by the separator stated", "Weld no.;"),
    ("Weld list\r\n" + table(), "the heads of the columns stand in line 2", "Weld list"),
    ("Weld list,,,,,,,\r\n" + table(), "the heads of the columns stand in line 2", "Weld list"),
    ("List, A\r\n\r\n" + table(separator=";"), "stand in line 3", "List"),
    ("PK\x03\x04" + "\0" * 9, "the file is a workbook", "PK"),
    ("a,b\n1,2\n", "none of the heads that the list names", "a"),
    (table().replace("[mm]", "[in]"), '"WT" is in [in] in the table, the list has it in [mm', "WT"),
    (table().replace("[mm]", "[%]"), '"WT" is in [%] in the table, the list has it in [mm]', "WT"),
    (table().replace(" [mm]", ""), '"WT" has no unit in the table', "WT"),
]  # fmt: skip


@each_row(("welds", "message", "at"), TABLES, ids=[t[1] for t in TABLES])
def test_a_table_that_is_wrong_as_a_whole_is_one_finding(welds: str, message: str, at: str) -> None:
    found = [f for f in findings(job(), welds) if f.kind.name != "joint-left-out"]
    assert len(found) == 1
    assert message in found[0].message
    assert found[0].source.name == "welds.csv"
    assert found[0].at.span.text.startswith(at)


def test_a_procedure_may_be_for_welds_of_a_table_that_cannot_be_read() -> None:
    more = "".join(
        f'procedure {name} "{kind}" {{\n  applies to kind {kind}\n}}\n'
        for name, kind in (("P-07", "girth butt"), ("P-08", "branch"))
    )
    text = job(more=more).replace("local-heating\n", "local-heating\n  follows P-07, P-08\n", 1)
    names = [f.kind.name for f in findings(text, table())]
    assert "procedure-for-other-work" in names
    for broken in (table(separator=";"), None):
        names = [f.kind.name for f in findings(text, broken)]
        assert "procedure-for-other-work" not in names


def test_nothing_is_offered_for_a_cell() -> None:
    (found,) = findings(job(), table().replace(",steam,", ",steem,"))
    assert (found.help, fixes_for(found)) == ("did you mean 'steam'?", ())


def test_only_the_rows_that_count_are_joints() -> None:
    columns = COLUMNS.replace('"Remarks" not used', '"Remarks" not used\n  only "PWHT" is "yes"')
    heads = (*HEADS, "PWHT")

    def rows(*cells: str) -> str:
        return table([(*row, cell) for row, cell in zip(ROWS, cells, strict=True)], heads)

    made = spec(job(columns), rows("yes", "no", "yes"))
    assert made.findings == []
    assert [joint.name for joint in made.own] == ["W12", "W101", "W103"]
    assert told(findings(job(columns), rows("yes", "Yes", "no"))) == [
        ("unclear-cell", 'welds.csv: weld W102, "PWHT"', "Yes")
    ]
    assert told(findings(job(columns), rows("yes", "", "no"))) == [
        ("blank-cell", 'welds.csv: weld W102, "PWHT"', "")
    ]
    out = columns.replace('is "yes"', 'is "yes" blank left out')
    assert spec(job(out), rows("yes", "", "no")).findings == []
    assert [f.kind.name for f in spec(job(columns), rows("no", "no", "no")).findings] == [
        "unmatched-column"
    ]


def test_a_joint_is_written_over_its_row_which_is_over_the_typical() -> None:
    more = 'joint W102 in lines {\n  line "12-P-9"\n  wall 26 mm measured\n}\n'
    made = spec(job(more=more), table())
    assert made.findings == []
    assert [joint.name for joint in made.own] == ["W12", "W101", "W102", "W103"]
    entry = made.joints["W102"].entry
    assert (entry.line, entry.drawing, entry.cap_width and str(entry.cap_width)) == (
        "12-P-9",
        'TI "A", 2',
        "30 mm",
    )
    assert str(entry.wall.thickness if entry.wall else None) == "26 mm"
    assert [each.name for each in made.joints["W102"].cycles] == ["stress-relief"]


@each_row(
    ("more", "name", "at"),
    [
        ("joint W104 in lines {\n}\n", "unknown-name", "W104"),
        ("joint W102 in line {\n}\n", "unknown-name", "line"),
        ("joint W102 like W12 in lines {\n}\n", "unexpected-value", "W12"),
        ("joint W102 in lines {\n}\njoint W102 in lines {\n}\n", "repeated-name", "W102"),
        ("joint W102 like W12 {\n}\n", "repeated-name", "W102"),
    ],
)
def test_a_joint_over_no_row_is_told(more: str, name: str, at: str) -> None:
    found = findings(job(more=more), table())
    assert [(f.kind.name, f.at.span.text) for f in found if f.severity == "error"] == [(name, at)]


def test_a_row_like_the_joint_that_is_written_over_it_is_a_circle() -> None:
    columns = COLUMNS.replace("like    W12", 'like    in "Typical"')
    rows = [(*row, "W101") for row in ROWS[:1]]
    text = job(columns, rows=1, more="joint W101 in lines {\n  axis vertical\n}\n")
    found = findings(text, table(rows, (*HEADS, "Typical")))
    assert "joint W101 is like itself, by way of W101" in [f.message for f in found]


def test_one_cause_in_many_rows_is_one_finding_that_names_five() -> None:
    rows = [(f"W{n}", "", "", "12", "120", "31", "", "") for n in range(200, 240)]
    found = findings(job(rows=40), table(rows))
    by_rule = {f.kind.name: f for f in found}
    # The soak and the heated edge are two entries of one heating.
    assert len({(f.kind.name, f.address, f.at.span.text) for f in found}) == len(found) < 10
    # In a cell of every row: at the cells.
    cell = by_rule["wall-of-other-schedule"]
    assert cell.at.text == 'weld W200, "WT [mm]"'
    assert "the same for 40 welds: W200, W201, W202, W203, W204 and 35 more" in cell.notes
    # In the typical joint because of the rows: there, and at the rows.
    typical = by_rule["edge-monitor-misplaced"]
    assert typical.source.name == "job.hts"
    rows_told = [label.text for label in typical.others if label.span.source.name == "welds.csv"]
    assert rows_told == [f'weld W{n}, "Weld no."' for n in range(200, 205)]


def test_a_blank_cell_leaves_the_value_of_the_typical_and_needed_asks_for_it() -> None:
    made = spec(job(rows=1), table([("W101", "", "", "", "", "", "", "")]))
    assert str(made.joints["W101"].entry.wall and made.joints["W101"].entry.wall.thickness) == (
        "25.4 mm"
    )
    needed = COLUMNS.replace("wall measured", "wall measured needed")
    rows = [("W101", "", "", "", "", "", "", "")]
    assert told(findings(job(needed, 1), table(rows))) == [
        ("blank-cell", 'welds.csv: weld W101, "WT [mm]"', "")
    ]
    dash = COLUMNS + '  blank "-"\n'
    assert spec(job(dash, 1), table([("W101", "-", "-", "-", "-", "-", "-", "-")])).findings == []


def test_a_weld_that_is_forgotten_where_others_are_treated_is_told() -> None:
    columns = COLUMNS.replace("like    W12", 'like    in "Remarks"').replace(
        '  column  "Remarks" not used\n', ""
    )
    text = job(columns, more="joint W13 like W12 {\n  cap width 29 mm\n}\n")
    rows = [(*row[:7], like) for row, like in zip(ROWS, ("W12", "W13", "W13"), strict=True)]
    at = text.index("cycle stress-relief")
    some = text[:at] + text[at:].replace("each of lines", "each of lines like W12", 1)
    found = spec(some, table(rows)).findings
    assert [(f.kind.name, f.message) for f in found] == [
        (
            "list-weld-untreated",
            "of lines W102, W103 are in no cycle and no bake, the others are",
        )
    ]
    assert spec(text, table(rows)).findings == []


def test_nothing_graver_and_nothing_else_hides_behind_the_first() -> None:
    """Rows whose findings at one line of the typical differ in more than figures stay apart."""
    kind = Kind("Z999", "test", "error", "s", "w", "f")
    made = spec(job(), table())
    at = Label(made.joints["W101"].entry.place("cap_width"))
    messages = [
        ("W101", "warning", "the band of W101 is 60 mm, 66 mm are asked for"),
        ("W102", "warning", "the band of W102 is 60 mm, 71.5 mm are asked for"),
        ("W103", "error", "the band of W103 is 60 mm, 70 mm are asked for"),
        ("W103", "warning", "the band of W103 is 60 mm, and nobody accepted it"),
    ]
    found = [
        Finding(kind, message, at, address=f"{name}/heating", severity=severity)  # type: ignore[arg-type]
        for name, severity, message in messages
    ]
    told_ = gathered(found, made)
    assert [(f.severity, f.message) for f in told_] == [
        (severity, message) for name, severity, message in messages if name != "W102"
    ]
    assert "the same for 2 welds: W101, W102" in told_[0].notes
    assert "W102: the band of W102 is 60 mm, 71.5 mm are asked for" in told_[0].notes
