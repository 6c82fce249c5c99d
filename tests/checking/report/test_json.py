"""The report of our own, held to the schema that is published."""

import copy
import json
from pathlib import Path
from typing import Any

from hypothesis import given
from jsonschema import Draft202012Validator

import hts
from hts.checking.checker.results import Results, Shard, ShardPlan, UncheckedFile
from hts.checking.report.json_report import write
from hts.generate import ROOT
from tests.checking.report.findings import ADVICE, ERROR, any_results, finding, results

SCHEMA = json.loads(Path(ROOT, "grammar", "check.schema.json").read_text("utf-8"))


def closed(schema: Any) -> Any:
    """The schema with every key forbidden that it does not name, so that none is written that the
    schema does not tell of."""
    if isinstance(schema, dict):
        made = {key: closed(value) for key, value in schema.items()}
        if "properties" in schema and isinstance(schema.get("required"), list):
            made["additionalProperties"] = False
        return made
    return [closed(item) for item in schema] if isinstance(schema, list) else schema


CLOSED = Draft202012Validator(closed(copy.deepcopy(SCHEMA)))


def report(made: Results) -> Any:
    document = json.loads(write(made))
    CLOSED.validate(document)
    return document


def test_the_schema_is_a_schema_and_names_no_place_in_the_net() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert "$id" not in SCHEMA


def test_counts_and_rules() -> None:
    made = results(finding(), finding(ERROR), finding(ERROR), finding(ADVICE))
    made.known, made.gone = 7, ["a.hts: X101 at W1"]
    document = report(made)
    assert document["summary"] == {
        "error": 2,
        "warning": 1,
        "advice": 1,
        "known": 7,
        "gone": ["a.hts: X101 at W1"],
    }
    assert [rule["code"] for rule in document["rules"]] == ["X101", "X102", "X103"]
    assert document["rules"][0]["floor"] == "error"
    assert document["format_version"] == 1


def test_a_shard() -> None:
    made = results(finding())
    made.shard_plan = ShardPlan(Shard(1, 2), ("a.hts", "b.hts"), "0f")
    assert report(made)["shard"]["files"] == ["a.hts", "b.hts"]


def test_a_report_with_less_is_refused() -> None:
    whole = report(results(finding()))
    for key in whole:
        assert not CLOSED.is_valid({k: v for k, v in whole.items() if k != key})


@given(any_results())
def test_hostile_texts_are_kept_and_hidden(made: Results) -> None:
    text = write(made)
    text.encode("utf-8")
    # Nothing that a terminal obeys stands in the document itself (RFC 8259, 7 allows escapes).
    assert text.replace("\n", "").isprintable()
    document = report(made)
    for told, kept in zip(document["findings"], made.findings, strict=True):
        assert (told["message"], told["address"], told["help"]) == (
            kept.message,
            kept.address,
            kept.help,
        )
        assert told["at"]["text"] == kept.at.text
    assert [UncheckedFile(**failure) for failure in document["failures"]] == made.failures


def test_a_fix_is_told_with_its_place_its_text_and_how_sure_it_is() -> None:
    path = Path(ROOT, "specs/broken/unit-unknown.hts")
    made = Results()
    made.checked = [path.name]
    made.findings = hts.check(hts.load(path), today="2026-11-20")
    ((told,),) = [each["fixes"] for each in report(made)["findings"]]
    assert (told["title"], told["kind"]) == ("write `degC/h`", "offered")
    (edit,) = told["edits"]
    line = path.read_text("utf-8").splitlines()[edit["line"] - 1]
    assert line[edit["column"] - 1 : edit["end_column"] - 1] == "C/hr"
    assert (edit["end_line"], edit["text"]) == (edit["line"], "degC/h")
