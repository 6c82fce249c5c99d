"""The code quality report of GitLab.

Form: docs.gitlab.com, "Code Quality", section on the report format: description, check_name,
fingerprint, severity, location.path, location.lines.begin.
"""

import json
from typing import Any

from hypothesis import given
from jsonschema import Draft202012Validator

from hts.checking.checker.results import Results, UncheckedFile
from hts.checking.report.gitlab import write
from tests.checking.report.findings import ADVICE, ERROR, TEXT, any_results, finding, results

TEXTS = {"type": "string", "minLength": 1}
ISSUES = Draft202012Validator(
    {
        "type": "array",
        "items": {
            "type": "object",
            "required": ["description", "check_name", "fingerprint", "severity", "location"],
            "properties": {
                "description": TEXTS,
                "check_name": TEXTS,
                "fingerprint": TEXTS,
                "severity": {"enum": ["info", "minor", "major", "critical", "blocker"]},
                "location": {
                    "type": "object",
                    "required": ["path", "lines"],
                    "properties": {
                        "path": TEXTS,
                        "lines": {
                            "type": "object",
                            "required": ["begin"],
                            "properties": {"begin": {"type": "integer", "minimum": 1}},
                        },
                    },
                },
            },
        },
    }
)


def issues(made: Results) -> Any:
    read = json.loads(write(made))
    ISSUES.validate(read)
    return read


def test_an_issue() -> None:
    (issue,) = issues(results(finding()))
    assert issue["description"] == "X102 second-kind: no zone heats from 3:00 to 4:00"
    assert issue["location"] == {"path": "a.hts", "lines": {"begin": 2}}


def test_severities() -> None:
    made = [finding(ERROR), finding(ERROR, severity="warning"), finding(ADVICE)]
    made.append(finding(severity="error"))
    severities = [issue["severity"] for issue in issues(results(*made))]
    assert severities == ["critical", "minor", "info", "major"]


def test_fingerprints_do_not_hang_on_lines_or_wording() -> None:
    def mark(*made: Any) -> list[str]:
        return [issue["fingerprint"] for issue in issues(results(*made))]

    first = mark(finding())
    assert mark(finding(text="\n" * 9 + TEXT)) == first
    assert mark(finding(message="between 3:00 and 4:00 no zone heats")) == first
    assert mark(finding(message="no zone heats from 3:00 to 5:00")) != first
    assert mark(finding(file="b.hts")) != first
    assert mark(finding(ERROR)) != first
    # What the message cites by its line moves with the lines.
    cited = [mark(finding(message=f"P-07, edition 3, line {n} asks for 2 h")) for n in (32, 41)]
    assert cited[0] == cited[1]


def test_no_two_fingerprints_are_equal() -> None:
    made = results(*(finding() for _ in range(5)))
    made.failures += [UncheckedFile("b.hts", "gone"), UncheckedFile("c.hts", "gone")]
    assert len({issue["fingerprint"] for issue in issues(made)}) == 7


def test_a_file_that_could_not_be_read_blocks() -> None:
    made = results()
    made.failures.append(UncheckedFile("b.hts", "gone"))
    (issue,) = issues(made)
    assert (issue["severity"], issue["location"]["path"]) == ("blocker", "b.hts")


@given(any_results())
def test_hostile_texts_stay_inside(made: Results) -> None:
    write(made).encode("utf-8")
    read = issues(made)
    assert len(read) == len(made.findings) + len(made.failures)
    assert len({issue["fingerprint"] for issue in read}) >= len(made.findings)
    for issue in read:
        assert issue["description"].replace("\n", "").replace("\t", "").isprintable()
