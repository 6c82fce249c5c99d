"""`hts why`: the tree of a value, against values worked out by hand from the cited rules."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from hts.base.text import Source
from hts.checking.checker import Case
from hts.checking.rules.examples import BUTT
from hts.cli.main import cli
from hts.job.explain import why
from hts.language.model import Loader, Spec


def case(text: str = BUTT) -> Case:
    return Case(Spec(Source(text, "w12.hts"), Loader(".")))


@pytest.mark.parametrize(
    "address", ["W12/hold-time", "W12.hold-time", "W12/stress-relief/hold-time"]
)
def test_hold_time_of_25_4_mm(address: str) -> None:
    # ASME B31.3-2016 Table 331.1.1: 1 h per 25 mm, at least 15 min, so 25.4 mm takes
    # 60 * 25.4 / 25 = 60.96 min.
    (answer,) = why.answers(case(), address)
    assert answer.address == "W12/stress-relief/hold-time"
    assert answer.value.startswith("60.96 min")
    assert answer.demands[0].why.source == "asme-b31.3"
    assert "25.4 mm" in answer.demands[0].why.numbers


def test_the_looser_demand_says_by_how_much() -> None:
    # Soak band: ASME BPVC VIII-1 UW-40(a) 30 + 2 * 25.4 = 80.8 mm; ASME B31.3-2012 331.2.6
    # 30 + 2 * 25 = 80 mm, looser by 0.8 mm.
    (answer,) = why.answers(case(), "W12/soak-band")
    assert answer.value.startswith("80.8 mm")
    assert answer.demands[1].value.startswith("80 mm")
    assert answer.demands[1].by.startswith("0.8 mm")


def test_what_a_number_rests_on_is_told_down_to_the_table() -> None:
    (answer,) = why.answers(case(), "W12/gradient-band")
    band = next(fact_used for fact_used in answer.facts_used if fact_used.name == "heated_band")
    assert band.answer is not None
    diameter = next(g for g in band.answer.facts_used if g.name == "outside_diameter")
    assert "B36.10M" in diameter.origin and "memory" in diameter.origin


def test_every_claim_has_a_source_and_a_basis() -> None:
    found = why.answers(case())
    assert len(found) > 10
    for answer in found:
        for demand_shown in answer.demands:
            assert demand_shown.why.source and demand_shown.why.basis


def test_a_stated_thickness_is_not_explained_as_derived() -> None:
    text = BUTT.replace("  cap width", "  governing thickness 26 mm\n  cap width")
    (answer,) = why.answers(case(text), "W12/hold-time")
    (fact_used,) = [fact_used for fact_used in answer.facts_used if fact_used.name == "t"]
    assert fact_used.answer is None and fact_used.value.startswith("26 mm")


def test_command(tmp_path) -> None:  # type: ignore[no-untyped-def]
    path = tmp_path / "w12.hts"
    path.write_text(BUTT, encoding="utf-8")
    run = CliRunner().invoke(cli, ["why", str(path), "W12/hold-time"])
    assert run.exit_code == 0 and "60.96 min" in run.output
    run = CliRunner().invoke(cli, ["why", str(path), "--format", "json"])
    assert {"address", "demands", "rests_on"} <= set(json.loads(run.output)[0])
    assert CliRunner().invoke(cli, ["why", str(path), "W99"]).exit_code == 1
    assert CliRunner().invoke(cli, ["why", str(tmp_path / "none.hts")]).exit_code == 2


def test_rules_and_books_commands() -> None:
    run = CliRunner().invoke(cli, ["rules", "zone-without-control"])
    assert run.exit_code == 0 and "Why it matters" in run.output
    run = CliRunner().invoke(cli, ["rules", "zone-without-contrl"])
    assert run.exit_code == 2 and "did you mean zone-without-control" in run.output
    run = CliRunner().invoke(cli, ["rules", "--family", "zones", "--format", "json"])
    assert {rule["family"] for rule in json.loads(run.output)} == {"zones"}
    run = CliRunner().invoke(cli, ["books"])
    assert run.exit_code == 0 and "asme-b31.3 edition 2018" in run.output
    run = CliRunner().invoke(cli, ["books", "asme-b31.3", "--edition", "1955"])
    assert run.exit_code == 2 and "2016" in run.output
    run = CliRunner().invoke(cli, ["books", "asme-b31.3", "--edition", "2016"])
    assert "Table 331.1.1" in run.output


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (
            ["rules", "--family", "colours"],
            2,
            "there is no family 'colours' of rules; there are: b",
        ),
        (["books", "asme-b99"], 2, "there is no book 'asme-b99'"),
        (["books", "asme-b99"], 2, "`hts books` lists them"),
        (["why", "empty.hts"], 1, "the rules give no value: the file has no joint"),
        (["why", "empty.hts", "W1"], 1, "no value at W1; `hts why empty.hts` lists all"),
    ],
)
def test_what_is_not_there_is_answered_with_what_is(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    arguments: list[str],
    code: int,
    said: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("empty.hts").write_text("spec 1\n")
    run = CliRunner().invoke(cli, arguments)
    assert run.exit_code == code
    assert said in run.stderr
