"""JUnit XML, read by a reader of others."""

import xml.etree.ElementTree as ET

from hypothesis import given
from junitparser import Error, Failure, JUnitXml, TestSuite

from hts.checking.checker.results import Results, UncheckedFile
from hts.checking.report.junit import write
from tests.checking.report.findings import ADVICE, ERROR, HOSTILE, any_results, finding, results


def read(made: Results) -> list[TestSuite]:
    whole = JUnitXml.fromstring(write(made).encode("utf-8"))
    suites = list(whole)
    for counted in (whole, *suites):
        stated = counted.tests, counted.failures, counted.errors
        counted.update_statistics()
        assert (counted.tests, counted.failures, counted.errors) == stated
    return suites


def test_a_clean_file_is_one_passed_case() -> None:
    (suite,) = read(results())
    (case,) = suite
    assert (case.name, case.classname, case.is_passed) == ("no findings", "a.hts", True)


def test_errors_and_warnings_fail_and_advice_does_not() -> None:
    (suite,) = read(results(finding(), finding(ERROR), finding(ADVICE)))
    warning, error, advice = suite
    assert [case.is_passed for case in suite] == [False, False, True]
    (failure,) = warning.result
    assert isinstance(failure, Failure)
    assert (failure.type, failure.message) == ("warning", "no zone heats from 3:00 to 4:00")
    assert "(a.hts:2:7)" in failure.text and ">>25,4<<" in failure.text
    assert error.result[0].type == "error"
    assert "third-kind" in advice.system_out
    assert warning.name == "X102 second-kind at W12/wall"


def test_equal_names_are_numbered() -> None:
    (suite,) = read(results(finding(), finding(), finding()))
    assert [case.name.rpartition("wall")[2] for case in suite] == ["", " (2)", " (3)"]


def test_a_file_that_could_not_be_read_is_an_error() -> None:
    made = results()
    made.failures.append(UncheckedFile("b.hts", "not UTF-8 text"))
    _, suite = read(made)
    (case,) = suite
    (error,) = case.result
    assert isinstance(error, Error) and error.message == "not UTF-8 text"


def test_a_finding_in_a_used_file_has_its_suite() -> None:
    suites = read(results(finding(file="library/x.hts")))
    assert [suite.name for suite in suites] == ["a.hts", "library/x.hts"]


def test_markup_of_a_text_is_text() -> None:
    for text in HOSTILE:
        (suite,) = read(results(finding(message=text, address=text, text=f"{text}25,4")))
        assert len(suite) == 1


@given(any_results())
def test_hostile_texts_stay_inside(made: Results) -> None:
    tree = ET.fromstring(write(made).encode("utf-8"))
    cases = tree.findall("testsuite/testcase")
    named = {f.source.name for f in made.findings}
    clean = sum(name not in named for name in made.checked)
    assert len(cases) == len(made.findings) + len(made.failures) + clean
    for case in cases:
        assert {child.tag for child in case} <= {"failure", "error", "system-out"}
        shown = "".join([*case.itertext(), *case.attrib.values()])
        assert shown.replace("\n", "").replace("\t", "").isprintable()
