"""Names of rules there were once."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.checking.checker.all_kinds import all_kinds
from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import BASES, BUTT
from hts.checking.rules.former import FORMER, meant
from tests.rows import each_row
from tests.specs.found import checked
from tests.texts import spec_of

WAIVER = (
    '\nwaive {} on W12 {{\n  reason "Read by hand"\n  by "Welding engineer"\n'
    "  until 2099-01-31\n}}\n"
)


@each_row("names", FORMER, ids=lambda names: names[1])
def test_a_former_name_leads_to_a_rule_there_is(names: tuple[str, str]) -> None:
    known = {f"{kind.code} {kind.name}" for kind in all_kinds()}
    assert FORMER[names] in known
    for word in names:
        assert meant(word, ()) == f"{FORMER[names]} took its place"
        assert not any(word == kind.name for kind in all_kinds())


def test_a_waiver_of_a_former_rule_is_told_what_took_its_place() -> None:
    told = checked(Path("a.hts"), BUTT + WAIVER.format("slow-recorder"))
    assert [f.help for f in told if f.kind.name == "waiver-of-unknown-rule"] == [
        "R111 demand-not-met took its place"
    ]


@pytest.mark.parametrize(
    ("rule", "help"),
    [
        ("R107", "R111 demand-not-met took its place"),
        ("calibration-older-than-allowed", "R111 demand-not-met took its place"),
        ("legs-atached-together", "did you mean legs-attached-together?"),
    ],
)
def test_a_line_that_forbids_to_waive_what_is_no_rule_is_told(rule: str, help: str) -> None:
    line = "  forbids          lower-temperature hold\n"
    text = BASES["procedure"].replace(line, f"{line}  forbids waive {rule}\n")
    found = check_spec(spec_of(text))
    assert [(f.kind.name, f.help) for f in found] == [("forbidden-waiver-of-unknown-rule", help)]
