"""Outcomes kept joint by joint: whatever is changed, the findings are those of a check without."""

from __future__ import annotations

import ast
import inspect
import os
import random
import re
from pathlib import Path

import pytest

from hts.base.findings import Finding
from hts.base.text import Span
from hts.checking.checker import cache as caching
from hts.checking.checker import run
from hts.checking.checker.check_paths import check_paths
from hts.checking.checker.kept_joints import KeptJoints
from hts.checking.checker.results import JointOutcomes
from hts.checking.checker.setting import Setting
from hts.checking.govern.case import Case
from hts.checking.report.formats import FORMATS, written
from hts.checking.rules.catalogue import rules
from hts.checking.rules.examples import BUTT, PROCEDURE, changed
from hts.checking.rules.rule import JOINT, TREATMENT
from hts.language.model.defaults import DefaultBook, Defaults
from tests.language.rows import lists
from tests.sampling import in_turn

#: Changes of the typical joint, its treatments, materials, instruments, procedure, job: one that
#: breaks each rule.
_SPOILT = [
    (example.base, example.changes)
    for rule in rules()
    for example in rule.bad
    if example.base in ("butt", "procedure") and example.today is None
]
_COLUMNS = lists.COLUMNS.replace("like    W12", 'like    in "Typical"').format(rows=3)
_LIST = f"""
joint riser like W12 {{
  axis vertical
}}
weld list lines from "welds.csv" {{
{_COLUMNS}}}
"""
_HEADS = (*lists.HEADS, "Typical")
#: Texts beside the list: a joint over its row, a treatment of one weld, one of two together, a
#: waiver, a joint like a weld of the list, a row that is not there.
_MORE = (
    "",
    "joint W101 in lines {\n  wall 23.1 mm measured\n}\n",
    "joint W102 in lines {\n  heating by induction {\n    soak band 12 mm total\n  }\n}\n",
    "joint W9 like W101 {\n  axis vertical\n}\n",
    "joint W104 in lines {\n  axis vertical\n}\n",
    "cycle again for W101, W102 together {\n  recorded by R1\n  powered by PS1\n"
    "  heat to 700 degC\n  hold 690 .. 720 degC for 1 h\n}\n",
    "cycle again for W103, W104 {\n  recorded by R1\n  heat to 700 degC\n"
    "  hold 690 .. 720 degC for 1 h\n}\n",
    'waive wall-of-other-schedule on W102 {\n  because "Measured twice"\n  by "Engineer"\n'
    "  until 2026-12-31\n}\n",
)
_CELLS = {
    4: ("120", "100", "XXS", ""),
    5: ("25.4", "25.1", "17", "24.9", "250", "?", ""),
    6: ("steam", "lethal", "", "hydrogen, amine", "water"),
    7: ("", "n/a", 'a "b", c'),
    8: ("W12", "riser", "W12", "riser", "W101", ""),
}
_SETTINGS = (
    Defaults(),
    Defaults((DefaultBook("asme-viii-1", "2019", "hts.toml:1:1"),)),
)


def _treated(text: str) -> str:
    for words in ("preheat", "for", "before heat", "during heat", "after heat"):
        text = text.replace(f"{words} W12 {{", f"{words} W12, each of lines {{")
    return text


def _job(rng: random.Random) -> str:
    base, changes = rng.choice(_SPOILT) if rng.random() < 0.7 else ("butt", ())
    return f"{_treated(changed(base, changes))}\n{_LIST}\n{rng.choice(_MORE)}"


def _rows(rows: list[list[str]], rng: random.Random) -> list[list[str]]:
    """The rows with one thing changed."""
    rows = [list(row) for row in rows]
    what = rng.random()
    if what < 0.6:
        column = rng.choice(list(_CELLS))
        rng.choice(rows)[column] = rng.choice(_CELLS[column])
    elif what < 0.7:
        rng.shuffle(rows)
    elif what < 0.8:
        rng.choice(rows)[0] = rng.choice(("W101", "W102", "W103", "W104"))
    elif what < 0.9 and len(rows) > 1:
        rows.pop(rng.randrange(len(rows)))
    else:
        rows.insert(rng.randrange(len(rows) + 1), [f"W{rng.randrange(101, 106)}", *rows[0][1:]])
    return rows


def _in_place(text: str, rng: random.Random) -> str:
    """The text with one figure changed so that everything stays where it is."""
    figures = [match.start() for match in re.finditer(r"\d", text)]
    at = rng.choice(figures)
    return f"{text[:at]}{rng.randrange(10)}{text[at + 1 :]}"


def _place(span: Span) -> tuple[str, int, int]:
    return span.source.name, span.start, span.end


def _told(finding: Finding) -> tuple[object, ...]:
    labels = [(_place(label.span), label.text) for label in (finding.at, *finding.others)]
    said = (finding.kind.code, finding.severity, finding.message, finding.address, finding.help)
    return *said, tuple(finding.notes), labels


def _checked(
    text: str, table: str, defaults: Defaults, today: str | None, known: JointOutcomes | None
) -> tuple[object, JointOutcomes]:
    spec = lists.spec(text, table)
    spec.defaults = defaults
    case = Case(spec, today)
    kept = KeptJoints(case, known) if known is not None else None
    found = run.check_case(case, kept=kept)
    waived = [(_told(finding), why) for finding, why in case.waived]
    told = [_told(finding) for finding in found], waived, sorted(case.days)
    return told, kept.now if kept is not None else {}


def _same_whatever_is_changed(seed: int, edits: int) -> int:
    """How many outcomes of joints were taken from an earlier check."""
    rng = random.Random(seed)
    rows = [[*row, "W12"] for row in lists.ROWS]
    order = list(range(len(_HEADS)))
    today, defaults = None, _SETTINGS[0]
    text = whole = _job(rng)
    known: JointOutcomes = {}
    taken = 0
    for _ in range(edits):
        what = rng.random()
        if what < 0.5:
            rows = _rows(rows, rng)
        elif what < 0.55:
            rng.shuffle(order)
        elif what < 0.75:
            text = _in_place(whole, rng)
        elif what < 0.8:
            text = whole
        elif what < 0.9:
            text = whole = _job(rng)
        elif what < 0.95:
            today = rng.choice((None, "2026-11-01", "2027-01-01", "2027-03-02"))
        else:
            defaults = rng.choice(_SETTINGS)
        heads, *ordered = ([row[n] for n in order] for row in (_HEADS, *rows))
        table = lists.table(ordered, tuple(heads))
        stated = re.sub(r"rows  *\d+", f"rows {len(rows)}", text)
        fresh, _ = _checked(stated, table, defaults, today, None)
        again, now = _checked(stated, table, defaults, today, known)
        assert again == fresh
        # All that was ever known is offered again: what does not hold must not be taken.
        taken += len(now.keys() & known.keys())
        known |= now
    return taken


def test_whatever_is_changed_the_findings_are_those_of_a_whole_check() -> None:
    assert _same_whatever_is_changed(1, 100) > 30


@pytest.mark.parametrize("seed", in_turn(range(2, 10), 8))
def test_the_same_over_thousands_of_changes(seed: int) -> None:
    assert _same_whatever_is_changed(seed, 400) > 0


@pytest.mark.parametrize("base", [BUTT, PROCEDURE])
def test_only_the_joint_of_a_changed_row_is_judged(
    base: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    judged: list[str] = []
    real = run._joint_rules

    def spy(case, rules, joint):  # type: ignore[no-untyped-def]
        judged.append(joint.name)
        real(case, rules, joint)

    monkeypatch.setattr(run, "_joint_rules", spy)
    text = lists.job()
    _, known = _checked(text, lists.table(), Defaults(), None, {})
    assert judged == ["W12", "W101", "W102", "W103"]
    judged.clear()
    rows = [list(row) for row in lists.ROWS]
    rows[1][5] = "25.2"
    _checked(text, lists.table(rows), Defaults(), None, known)
    assert judged == ["W12", "W102"]


def test_a_row_like_another_row_hangs_on_that() -> None:
    text = f"{_treated(BUTT)}\n{_LIST}"
    rows = [[*row, like] for row, like in zip(lists.ROWS, ("W12", "W101", "W12"), strict=True)]
    rows[1][5] = ""
    known: JointOutcomes = {}
    for wall in ("25.4", "17", "25.4"):
        rows[0][5] = wall
        table = lists.table(rows, _HEADS)
        fresh, _ = _checked(text, table, Defaults(), None, None)
        again, now = _checked(text, table, Defaults(), None, known)
        assert again == fresh
        known |= now


def _looking(path: Path) -> dict[str, set[str]]:
    """By name of each function of a module the functions it calls and the attributes it reads."""
    found: dict[str, set[str]] = {}
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.FunctionDef):
            inside = list(ast.walk(node))
            calls = [each.func for each in inside if isinstance(each, ast.Call)]
            found[node.name] = {each.id for each in calls if isinstance(each, ast.Name)}
            found[node.name] |= {each.attr for each in inside if isinstance(each, ast.Attribute)}
    return found


def test_no_rule_about_a_joint_looks_at_others_but_for_joints_heated_together() -> None:
    """What such a rule would find hangs on another joint, and is no outcome of its own."""
    folder = Path(run.__file__).parents[1]
    shared = [*(folder / "rules" / "helpers").glob("*.py"), *(folder / "govern").glob("*.py")]
    uses: dict[str, set[str]] = {}
    for path in shared:
        for name, used in _looking(path).items():
            uses.setdefault(name, set()).update(used)
    others = {"joints", "own_joints"}
    while more := {name for name, used in uses.items() if used & others} - others:
        others |= more
    # A case knows its joints, and puts one at a time to a rule.
    others -= {"_ours", "treatments", "authorities", "limits", "__init__"}
    looking = {
        rule.kind.name
        for rule in rules()
        if rule.subject in (JOINT, TREATMENT)
        for used in _looking(Path(inspect.getfile(rule.check))).values()
        if used & others
    }
    assert looking == {"circuit-overloaded", "repeated-channel"}
    for name in looking:
        (rule,) = (rule for rule in rules() if rule.kind.name == name)
        assert "cycle.together" in inspect.getsource(inspect.getmodule(rule.check))  # type: ignore[arg-type]


def _everything(root: Path, kept: str | None, defaults: Defaults, today: str) -> object:
    setting = Setting(defaults=defaults, digest=str(_SETTINGS.index(defaults)))
    results = check_paths([str(root)], jobs=1, cache=kept, today=today, settings=lambda _: setting)
    return {form: written(form, results) for form in FORMATS}


def test_kept_on_disk_it_is_the_same_bytes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Edits of the table, the text, a library with the procedure, a book, the settings, the day."""
    monkeypatch.setattr(caching, "program", lambda: "this one")
    rng = random.Random(7)
    root, kept = tmp_path / "repository", str(tmp_path / "kept")
    root.mkdir()
    (root / "hts.toml").write_text("")
    book = Path("specs/books/island-law.yaml").read_text()
    text = f"{_treated(BUTT)}\n{_LIST}"
    text = text.replace("local-heating\n", "local-heating, island-law\n  follows P-07\n", 1)
    text = text.replace("spec 1\n", 'spec 1\nuse "owner.hts"\nbook "law.yaml"\n', 1)
    owner = "spec 1\n" + PROCEDURE[PROCEDURE.index("procedure P-07") :]
    rows = [[*row, "W12"] for row in lists.ROWS]
    taken = 0
    for step in range(16):
        what = rng.randrange(6) if step else 0
        if what == 0:
            rows = _rows(rows, rng)
        elif what == 1:
            text = text.replace("25.4 mm", "25.5 mm") if "25.4 mm" in text else text + "# seen\n"
        elif what == 2:
            owner = re.sub(
                r"at least \d+ degC", f"at least {rng.randrange(670, 720)} degC", owner, count=1
            )
        elif what == 3:
            book = re.sub(r"t > \d+ mm", f"t > {rng.randrange(10, 40)} mm", book)
        defaults = rng.choice(_SETTINGS) if what == 4 else _SETTINGS[0]
        today = rng.choice(("2026-11-20", "2027-03-02")) if what == 5 else "2026-11-20"
        stated = re.sub(r"rows  *\d+", f"rows {len(rows)}", text)
        for name, content in (
            ("job.hts", stated),
            ("owner.hts", owner),
            ("law.yaml", book),
            ("welds.csv", lists.table(rows, _HEADS)),
        ):
            (root / name).write_text(content, newline="")
        assert _everything(root, kept, defaults, today) == _everything(root, None, defaults, today)
        taken += len(os.listdir(kept))
    assert taken
