"""The baseline as a file: written the same way always, and damaged in many."""

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.findings.identity import Identity
from hts.checking.configuration import ConfigurationError
from hts.checking.configuration.baseline import Baseline, made_of, read_baseline
from tests.checking.report.findings import ADVICE, ERROR, TEXT, any_results, finding

ENTRY = '{"file": "a", "code": "Z113", "address": "", "values": [], "count": 1}'
IDENTITIES = st.builds(
    Identity, st.text(max_size=8), st.text(max_size=4), st.text(max_size=8), st.just(("3:00", "ü"))
)


def whole(*entries: str) -> str:
    """A baseline of these entries."""
    return '{"format_version": 1, "findings": [' + ",".join(entries) + "]}"


def put(folder: Path, text: str) -> str:
    path = folder / "base.json"
    path.write_text(text, "utf-8", newline="")
    return str(path)


@given(st.dictionaries(IDENTITIES, st.integers(1, 5), max_size=6))
def test_what_is_written_is_read(counts: dict[Identity, int]) -> None:
    import tempfile

    text = Baseline(counts).text()
    with tempfile.TemporaryDirectory() as folder:
        read = read_baseline(put(Path(folder), text))
    assert read is not None and read.counts == counts
    assert Baseline(dict(reversed(counts.items()))).text() == text
    assert text.count("\n") == max(1, len(counts)) + 2  # an entry a line


@given(any_results())
def test_all_that_may_be_known_is(made: object) -> None:
    found = made.findings  # type: ignore[attr-defined]
    new, known = made_of(found).split(found)
    assert all(f.kind.floor is not None for f in new)
    assert all(f.kind.floor is None for f in known)
    assert len(new) + len(known) == len(found)


def test_equal_findings_are_counted() -> None:
    baseline = made_of([finding(), finding()])
    three = [finding(), finding(), finding(text="\n\n" + TEXT)]
    new, known = baseline.split(three)
    assert (len(new), len(known)) == (1, 2) and new == three[2:]
    later = baseline.shrunk([three[0]], lambda file: True)
    assert list(later.counts.values()) == [1]
    assert baseline.gone(later) == ["a.hts: X102 at W12/wall (3:00, 4:00)"]
    assert baseline.shrunk(known, lambda file: True).counts == baseline.counts


def test_another_value_is_another_finding() -> None:
    new, _ = made_of([finding()]).split([finding(message="no zone heats from 3:00 to 6:00")])
    assert len(new) == 1


def test_severity_does_not_count_and_floors_do() -> None:
    found = [finding(severity="error"), finding(ADVICE), finding(ERROR)]
    assert {same.code for same in made_of(found).counts} == {"X102", "X103"}
    by_hand = Baseline({Identity("a.hts", "X101", "W12/wall", ("3:00", "4:00")): 9})
    assert by_hand.split(found)[0] == found


def test_there_is_no_file(tmp_path: Path) -> None:
    assert read_baseline(str(tmp_path / "base.json")) is None


@pytest.mark.parametrize(
    ("text", "place", "cause"),
    [
        ("", "1:1", "not JSON"),
        ('{"format_version": 1,\n "findings": [\n', "3:1", "not JSON"),
        ("[" * 100_000, "1:1", "nested too deeply"),
        ("[]", "1:1", "no baseline of format version 1"),
        ("9" * 5000, "1:1", "not JSON: exceeds the limit"),
        ('{"format_version": 2, "findings": []}', "1:1", "no baseline of format version 1"),
        ('{"format_version": 1, "findings": {}}', "1:1", "no list"),
        ('{"format_version": 1, "findings": [\n 1]}', "2:2", "an entry has exactly the keys"),
        (whole(ENTRY, '\n  {"file": 1}'), "2:3", "an entry has exactly the keys"),
        (whole(ENTRY, "\n" + ENTRY), "2:1", "twice"),
        (whole("\n\n" + ENTRY.replace("1}", "0}")), "3:1", "count"),
        (whole(ENTRY.replace("1}", "true}")), "1:36", "count"),
        (whole(ENTRY.replace("[]", "[1]")), "1:36", "texts"),
        (whole(ENTRY.replace("[]", '"x"')), "1:36", "texts"),
    ],
)
def test_a_damaged_file_is_told_with_its_place(
    tmp_path: Path, text: str, place: str, cause: str
) -> None:
    with pytest.raises(ConfigurationError) as caught:
        read_baseline(put(tmp_path, text))
    assert caught.value.place.endswith(f"base.json:{place}")
    assert cause in caught.value.cause
    assert "version control" in caught.value.remedy


def test_a_file_that_is_no_text(tmp_path: Path) -> None:
    (tmp_path / "base.json").write_bytes(b"\xff")
    with pytest.raises(ConfigurationError, match="not UTF-8"):
        read_baseline(str(tmp_path / "base.json"))
    assert json.loads(ENTRY)  # the entries above are sound but for what is wrong with them
