"""What a waiver covers is not lost: it is kept, spread and joined like a finding."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace as Stub
from typing import Any

from hts.base.findings import Finding, Kind, Label
from hts.checking.checker import waivers
from hts.checking.checker.check_paths import check_paths
from hts.checking.checker.results import Results, Shard
from hts.checking.checker.shards import joined
from hts.checking.checker.waivers import apply_waivers, covers
from hts.checking.govern.case import Case
from hts.checking.report.json_report import write
from hts.checking.rules.examples import BUTT
from tests.rows import each_row
from tests.texts import spec_of

WAIVER = (
    '\nwaive missing-spare on W12/thermocouples/T2 {\n  reason "Reached in a minute"\n'
    '  by "Welding engineer"\n  until 2099-01-31\n}\n'
)
WAIVED = BUTT.replace(
    "    T2S  spare for T2            at 6:10  on weld              channel 8\n", ""
)


def told(results: Results) -> list[tuple[str, str, str]]:
    return [(e.finding.source.name, e.finding.kind.name, e.why) for e in results.suppressed]


def test_waived_findings_are_kept_spread_and_joined(tmp_path: Path) -> None:
    (tmp_path / ".git").mkdir()
    open_ones = check_paths([str(_put(tmp_path, "a.hts", WAIVED))]).findings
    (finding,) = open_ones
    waiver = WAIVER.replace("missing-spare", finding.kind.name)
    waiver = waiver.replace("W12/thermocouples/T2", finding.address)
    for name in ("a.hts", "b.hts", "c.hts"):
        _put(tmp_path, name, WAIVED + waiver)
    folder, kept = str(tmp_path), str(tmp_path.parent / "kept")
    why = "Reached in a minute, Welding engineer, until 2099-01-31"
    expected = [(name, finding.kind.name, why) for name in ("a.hts", "b.hts", "c.hts")]
    for results in (
        check_paths([folder]),
        check_paths([folder], jobs=2),
        check_paths([folder], cache=kept),
        check_paths([folder], cache=kept),
        joined({str(n): write(check_paths([folder], shard=Shard(n, 2))).encode() for n in (1, 2)}),
    ):
        assert results.findings == [] and results.exit_code == 0
        assert told(results) == expected


def test_a_waiver_beside_its_finding_is_told_where_that_is(tmp_path: Path) -> None:
    (tmp_path / ".git").mkdir()
    (finding,) = check_paths([str(_put(tmp_path, "a.hts", WAIVED))]).findings
    waiver = WAIVER.replace("missing-spare", finding.kind.name).replace(
        "W12/thermocouples/T2", "W12"
    )
    found = check_paths([str(_put(tmp_path, "b.hts", WAIVED + waiver))]).findings
    (unused,) = [each for each in found if each.kind.code == "V102"]
    assert unused.message == f"{finding.kind.name} is told at {finding.address}, not at W12"
    assert unused.help == f"write `on {finding.address}`, or remove the waiver"


def _put(folder: Path, name: str, text: str) -> Path:
    (folder / name).write_text(text)
    return folder / name


@each_row(
    ("written", "means"),
    [
        ("W12/thermocouples/T2", True),
        ("W12/T2", True),
        ("W12.T2", True),
        ("W12.thermocouples.T2", True),
        ("T2", False),
        ("W12", False),
        ("W12/thermocouples", False),
        ("W13/T2", False),
        ("W12/heating/T2", False),
        ("W12/T2/thermocouples/T2", False),
        ("W12.thermocouples/T2", False),
    ],
)
def test_what_address_is_meant(written: str, means: bool) -> None:
    assert covers(written, "W12/thermocouples/T2") is means


_PLAIN, _NEVER = (
    Kind("X101", "missing-spare", "error", "Summary.", "Why.", "Fix.", floor)
    for floor in (None, "error")
)


@each_row(
    ("waiver", "kinds", "left"),
    [
        (WAIVER, (_PLAIN, _PLAIN), []),
        (WAIVER, (_NEVER, _NEVER), ["X101", "X101", "V104"]),
        # One that no waiver may cover is not covered among others either.
        (WAIVER, (_PLAIN, _NEVER), ["X101", "X101", "V104"]),
        (WAIVER.replace("2099", "2001"), (_PLAIN,), ["X101", "V103"]),
        (WAIVER.replace("missing-spare", "X101"), (_PLAIN,), []),
        # What could not be read whole covers nothing, and has been told of.
        (WAIVER.replace("missing-spare on", "on"), (_PLAIN,), ["X101"]),
        (WAIVER.replace("on W12/thermocouples/T2 ", ""), (_PLAIN,), ["X101"]),
        (WAIVER.replace("2099-01-31", "soon"), (_PLAIN,), ["X101"]),
    ],
)
def test_what_a_waiver_leaves(waiver: str, kinds: tuple[Kind, ...], left: list[str]) -> None:
    spec = spec_of(WAIVED + waiver)
    findings = [
        Finding(kind, "told", Label(spec.source.span(0, 4)), address="W12/thermocouples/T2")
        for kind in kinds
    ]
    case = Case(spec, "2026-11-20")
    assert [each.kind.code for each in apply_waivers(case, findings)] == left
    assert len(case.waived) == (0 if left else len(kinds))


_FLOOR = Kind("X102", "never-waived", "error", "Summary.", "Why.", "Fix.", "error")
_ODD = Kind("X101", "odd-thing", "error", "Summary.", "Why.", "Fix.")
_USUAL = Kind("C101", "missing-spare", "error", "Summary.", "Why.", "Fix.")


@each_row(
    ("rule", "on", "until", "left", "told", "waived"),
    [
        # By name or by code, at the very place or with what lies between left out.
        ("odd-thing", "W12/tc/T2", None, ["W12/tc/T3", "W13/tc/T2"], "", 1),
        ("X101", "W12.T3", None, ["W12/tc/T2", "W13/tc/T2"], "", 1),
        ("X101", "W13/T2", "2026-11-20", ["W12/tc/T2", "W12/tc/T3"], "", 1),
        # Past its day it covers nothing, and neither does one at another place.
        ("X101", "W13/T2", "2026-11-19", None, "V103 this waiver ended on 2026-11-19", 0),
        ("X101", "W12", None, None, "V102 X101 is told at W12/tc/T2, and 1 more, not at W12", 0),
        ("X101", "W13.T9", None, None, "V102 X101 is told at W13/tc/T2, not at W13.T9", 0),
        ("X101", "W14.T2", None, None, "V102 nothing at W14.T2 breaks X101", 0),
        ("odd-thin", "W12.T2", None, None, "V101 there is no rule 'odd-thin'", 0),
        ("X102", "W12.T2", None, None, "V104 X102 may not be waived", 0),
        ("never-waived", "W12.T3", None, None, "V102 never-waived is told at W12/tc/T2, not at", 0),
    ],
)  # fmt: skip
def test_what_a_waiver_covers(
    rule: str, on: str, until: str | None, left: list[str] | None, told: str, waived: int
) -> None:
    source = spec_of(BUTT).source
    places = ["W12/tc/T2", "W12/tc/T3", "W13/tc/T2"]
    findings = [Finding(_ODD, "odd", Label(source.span(0, 4)), address=each) for each in places]
    never = Finding(_FLOOR, "never", Label(source.span(0, 4)), address="W12/tc/T2")
    case = Case(spec_of(BUTT), "2026-11-20")
    waiver: Any = Stub(
        rule=rule, on=on, until=until, reason="Reached in a minute", by="Engineer",
        address="waive", place=lambda field: source.span(0, 4),
    )  # fmt: skip
    known = waivers.kinds
    waivers.kinds = lambda packs: (_ODD, _FLOOR, _USUAL)  # type: ignore[assignment]
    try:
        found = waivers._apply(case, waiver, [*findings, never], ())
    finally:
        waivers.kinds = known
    assert [e.address for e in found if e.kind is _ODD] == (places if left is None else left)
    assert never in found and len(case.waived) == waived
    about = [f"{e.kind.code} {e.message}" for e in found if e.kind not in (_ODD, _FLOOR)]
    assert len(about) == bool(told) and all(each.startswith(told) for each in about), about
    if waived:
        ends = f", until {until}" if until else ""
        assert case.waived[0][1] == f"Reached in a minute, Engineer{ends}"
