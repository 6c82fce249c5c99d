"""Texts and tables made to cost time or memory, each below the stated limits of size."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import NamedTuple

from hts.checking.rules.examples import BASES, BUTT

Files = dict[str, str]


class Hostile(NamedTuple):
    """`make` gives the files for a size in MB, of which the first is the one that is large."""

    area: str
    name: str
    make: Callable[[float], Files]
    command: tuple[str, ...]
    megabytes: float = 1.0


def _filled(size: float, line: str, head: str = "spec 1\n", tail: str = "") -> str:
    """Lines, numbered where they hold `{n}`, until the text is as long as asked."""
    longest = len(line.replace("{n}", "100000")) + 1
    count = int(size * 1_000_000 / longest)
    numbered = "{n}" in line
    lines = (line.replace("{n}", str(n)) for n in range(count)) if numbered else [line] * count
    return head + "\n".join(lines) + "\n" + tail


def _spec(line: str, head: str = "spec 1\n", tail: str = "") -> Callable[[float], Files]:
    return lambda size: {"a.hts": _filled(size, line, head, tail)}


def _joint(line: str) -> Callable[[float], Files]:
    """A sound job with many lines of one kind in its joint."""
    head, inner, rest = BUTT.partition("  expansion  free\n")
    return _spec(line, head + inner, rest)


def _long(piece: str, begins: str, ends: str) -> Callable[[float], Files]:
    return lambda size: {
        "a.hts": "spec 1\n" + begins + piece * int(size * 1_000_000 / len(piece)) + ends + "\n"
    }


def _procedure(line: str, most: int) -> Callable[[float], Files]:
    head, inner, rest = BASES["procedure"].partition("procedure P-07")
    first, brace, tail = rest.partition("{\n")
    rows = "\n".join(line.replace("{n}", str(n + 1)) for n in range(most))
    return lambda size: {"a.hts": f"{head}{inner}{first}{brace}{rows}\n{tail}"}


def _like(size: float) -> Files:
    return {"a.hts": _filled(size, "material m{n} like p{n} {\n}", "spec 1\n")}


def _chain(size: float) -> Files:
    lines = ["joint J0 like W12 {\n}"]
    lines += [f"joint J{n} like J{n - 1} {{\n}}" for n in range(1, int(size * 1_000_000 / 26))]
    return {"a.hts": BUTT + "\n".join(lines) + "\n"}


def _table(cell: str, columns: int = 20) -> Callable[[float], Files]:
    def made(size: float) -> Files:
        row = ",".join([cell] * columns)
        rows = [row] * min(int(size * 1_000_000 / (len(row) + 1)), 4_999)
        heads = ",".join(f"h{n}" for n in range(columns))
        said = f'weld list lines "t.csv" {{\n  revision A\n  rows {len(rows)}\n  name "h0"\n}}\n'
        return {"t.csv": "\n".join([heads, *rows]) + "\n", "a.hts": BUTT + said}

    return made


def _log(line: str, head: str = "time,T1 [degC],T2 [degC]") -> Callable[[float], Files]:
    return lambda size: {"log.csv": _filled(size, line, f"{head}\n"), "a.hts": BUTT}


def _beside(name: str, text: Callable[[float], str]) -> Callable[[float], Files]:
    log = "time,T1 [degC]\n" + "".join(f"2026-10-02 06:{n:02}:00,{n}.0\n" for n in range(60))
    return lambda size: {name: text(size), "log.csv": log, "a.hts": BUTT}


def _json(entry: dict[str, object], key: str, name: str) -> Callable[[float], Files]:
    def made(size: float) -> Files:
        count = int(size * 1_000_000 / len(json.dumps(entry)))
        text = json.dumps({"version": 1, key: [entry] * count})
        return {name: text, "a.hts": BUTT, "b.hts": BUTT.replace("25.4", "26.4")}

    return made


def _deep(size: float) -> str:
    return "columns: " + "[" * int(size * 1_000_000)


_CHECK = ("check", "--no-cache", "a.hts")
_FMT = ("fmt", "--check", "--no-cache", "a.hts")
_JUDGE = ("record", "check", "a.hts", "log.csv")
_TEXTS: tuple[tuple[str, Callable[[float], Files], float], ...] = (
    ("blank lines", _spec(""), 4.9),
    ("blank lines of another system", _spec("\r"), 4.9),
    ("remarks", _spec("# remark"), 4.9),
    ("unknown entries", _spec("frobnicate{n} {n} mm"), 1),
    ("unknown letters", _spec("§ {n}"), 1),
    ("opening brackets", _long("(", "joint W1 {\n  cap width ", "\n}"), 1),
    ("closing brackets", _long(")", "joint W1 {\n  cap width ", "\n}"), 1),
    ("pairs of brackets", _long("()", "joint W1 {\n  cap width ", "\n}"), 1),
    ("opening blocks", _spec("joint W1 {"), 1),
    ("closing blocks", _spec("}"), 1),
    ("blocks on their own line", _spec("{"), 1),
    ("quotes", _spec('"'), 1),
    ("backslashes", _long("\\", 'title "', '"'), 1),
    ("commas", _long(",", "composition C ", ""), 1),
    ("digits", _long("9", "wall ", " mm"), 1),
    ("fractions", _long("1/2 ", "wall ", " mm"), 1),
    ("signs", _long("+/- ", "wall ", " mm"), 1),
    ("one long text", _long("x", 'title "', '"'), 4.9),
    ("one long text without end", _long("x", 'title "', ""), 4.9),
    ("one long word", _long("x", "title ", ""), 4.9),
    ("a long sum", _long("1 h + ", 'procedure P-1 "x" {\n  hold time at least ', "1 h\n}"), 1),
    ("a deep formula", _long("(", 'procedure P-1 "x" {\n  hold time at least ', "1 h\n}"), 1),
    ("letters of many bytes", _long("𝟙", 'title "', '"'), 1),
    ("hidden letters", _long("\u200b", 'title "', '"'), 1),
    ("marks of a merge", _spec("<<<<<<< a"), 1),
    ("waivers", _spec('waive B101 for W{n} because "x" by "y" until 2027-01-01'), 0.5),
    ("like of what is not there", _like, 0.5),
    ("joints, each like the one before", _chain, 0.1),
    ("materials", _spec('material m{n} {\n  grade "A335 P22"\n}', BUTT), 0.5),
    ("zones of a joint", _joint("  zone Z{n} 0:00 .. 6:00"), 0.1),
    ("neighbours of a joint", _joint(
        '  nearby "valve {n}" 1.4 m downstream at most 200 degC protected'), 0.1),
    ("uses", _spec('use "other{n}.hts"'), 0.5),
    ("revisions", _spec('  A{n} on 2026-10-02 "x"', 'job "x" {\n history {\n', " }\n}\n"), 0.5),
)  # fmt: skip
_ROW = "  hold time at least {n} min when t <= {n} mm and p_number = 5A"
_ROWS = (
    ("500 rows of a procedure", _ROW),
    ("500 rows, the mildest for all", "  hold time at least {n} min when t >= {n} mm"),
    ("500 rows of formulas", "  hold time at least {n} min + 1 min/mm * t when t <= {n} mm"),
    ("500 rows of words", "  hold time at least {n} min when p_number in (1, 5A) and t <= {n} mm"),
    (
        "500 rows at 500 walls",
        "  hold time at least {n} min when p_number in (1, 5A) and t > 5.{n} mm",
    ),
    (
        "500 rows of sums",
        "  hold time at least {n} min + 1 min/mm * t when max(t, wall) > 5.{n} mm "
        "and t + cap_width > 30 mm",
    ),
)

HOSTILE: tuple[Hostile, ...] = (
    *(Hostile("check", name, make, _CHECK, size) for name, make, size in _TEXTS),
    *(Hostile("fmt", name, make, _FMT, size) for name, make, size in _TEXTS),
    *(Hostile(form, name, make, ("check", "--no-cache", "--format", form, "a.hts"), size)
      for form in ("json", "sarif")
      for name, make, size in (
          ("slips", _joint("  expantion  free  # {n}"), 0.02),
          ("many slips", _joint("  expantion  free  # {n}"), 1),
          ("wrong values", _joint('  nearby "valve" {n} mm downstream at most 200 degc'), 0.02),
          ("dates", _spec('waive B101 for W12 because "x" by "y" until 20.11.2026'), 0.02),
      )),
    *(Hostile("check", name, _procedure(row, 500), _CHECK) for name, row in _ROWS),
    Hostile("diff", "remarks", _spec("# remark {n}", BUTT),
            ("diff", "--representation", "a.hts", "/dev/null")),
    Hostile("diff", "joints", lambda size: {
        "a.hts": _filled(size, "material m{n} {\n}", BUTT),
        "b.hts": _filled(size, "material n{n} {\n}", BUTT)},
        ("diff", "--representation", "a.hts", "b.hts"), 0.2),
    Hostile("weld list", "long cells", _table("x" * 999), _CHECK, 4.9),
    Hostile("weld list", "quotes", _table('"', 1), _CHECK, 1),
    Hostile("weld list", "digits", _table("9" * 30), _CHECK, 1),
    Hostile("weld list", "commas", _table("", 5_000), _CHECK, 1),
    Hostile("new", "heads", _table("W12", 90), ("new", "--weld-list", "t.csv"), 1),
    Hostile("log", "words for numbers", _log("2026-10-02 06:00:00,abc,def"), _JUDGE, 5),
    Hostile("log", "long cells", _log("2026-10-02 06:00:00," + "9" * 5_000 + ",1"), _JUDGE, 5),
    Hostile("log", "blank lines", _log(""), _JUDGE, 5),
    Hostile("log", "quotes", _log('"'), _JUDGE, 5),
    Hostile("log", "separators", _log("," * 2_000), _JUDGE, 5),
    Hostile("log", "nothing but digits", lambda size: {
        "log.csv": "9" * int(size * 1_000_000), "a.hts": BUTT}, _JUDGE, 5),
    Hostile("log", "headings", _log("1,2,3", ",".join(f"T{n} [degC] (x)" for n in range(20_000))),
            _JUDGE, 1),
    Hostile("log", "remarks", _log("2026-10-02 06:00:00,20,power was off and on " + "power " * 50,
                                   "time,T1 [degC],remarks"), _JUDGE, 5),
    Hostile("log", "the same moment", _log("2026-10-02 06:00:00,20,20"), _JUDGE, 5),
    Hostile("beside a log", "brackets", _beside("log.yaml", _deep), _JUDGE, 1),
    Hostile("beside a log", "anchors", _beside("log.yaml", lambda size: "a: &a [x]\n" + "\n".join(
        f"b{n}: &b{n} [{', '.join(['*a'] * 9)}]" for n in range(int(size * 20_000)))), _JUDGE, 1),
    Hostile("beside a log", "events", _beside("log.events.yaml", lambda size: _filled(
        size, "- {at: 2026-10-02 06:10, kind: note, text: wind}", "")), _JUDGE, 1),
    Hostile("beside a log", "no lines", _beside("log.events.yaml", lambda size: "- " * int(
        size * 500_000)), _JUDGE, 1),
    Hostile("settings", "keys", lambda size: {
        "hts.toml": _filled(size, "k{n} = 1", "[severity]\n"), "a.hts": BUTT}, _CHECK, 1),
    Hostile("settings", "tables", lambda size: {
        "hts.toml": "a" + ".a" * int(size * 500_000) + " = 1\n", "a.hts": BUTT}, _CHECK, 1),
    Hostile("known findings", "entries", _json(
        {"file": "a.hts", "code": "B101", "address": "W12", "values": [], "count": 1},
        "findings", "k.json"), (*_CHECK, "--baseline", "k.json"), 1),
    Hostile("approvals", "entries", _json({"by": "x", "changes": ["y"]}, "approvals", "k.json"),
            ("diff", "a.hts", "b.hts", "--approvals", "k.json"), 1),
    Hostile("shards", "brackets", lambda size: {"k.json": "[" * int(size * 1_000_000)},
            ("check", "--merge-reports", "k.json"), 1),
    Hostile("books", "rows", lambda size: {
        "b.yaml": _filled(size, "  - {id: r{n}, quantity: hold time}", "id: b\nrows:\n")},
        ("books", "b.yaml"), 1),
    Hostile("books", "brackets", lambda size: {"b.yaml": "id: " + "[" * int(size * 1_000_000)},
            ("books", "b.yaml"), 1),
)  # fmt: skip
