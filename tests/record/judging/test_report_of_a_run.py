"""The report of a judgement laid out: columns, wrapping, marks, the count below."""

from __future__ import annotations

from hts.record.judging import CONDITIONAL, MET, NOT_MET, NOT_SHOWN, text
from hts.record.judging.verdict import Failure, Outcome, Verdict
from tests.record.judging.made import run, spec_plan


def made(
    name: str,
    outcome: Outcome,
    guarded: Outcome | None = None,
    sentences: tuple[str, ...] = (),
    specified: str = "at most 720 degC",
    *,
    elsewhere: bool = False,
) -> Verdict:
    failures = tuple(Failure((), 0.0, 0.0, one) for one in sentences)
    return Verdict(name, "", specified, "705 degC", outcome, guarded, failures, None, elsewhere)


def told(*verdicts: Verdict) -> list[str]:
    judgement = run(spec_plan())._replace(verdicts=verdicts, assumed=())
    return text.write(judgement).splitlines()


def test_the_table() -> None:
    """Four columns of 30, 34, 34 and 11 letters, two blanks between; what is not met is marked in
    its first line, and a cell that is too long goes on below in its own column."""
    lines = told(
        made("one", MET),
        made("two", NOT_MET, sentences=("it was too hot",)),
        made("three", NOT_SHOWN, specified="at most 720 degC, and on a second line this"),
        made("four", MET, MET),
        made("five", MET, CONDITIONAL),
        made("six", NOT_MET, NOT_MET),
        made("elsewhere", NOT_SHOWN, elsewhere=True),
    )
    at = next(i for i, line in enumerate(lines) if line.startswith("requirement"))
    columns = "{:30}  {:34}  {:34}  {}".format
    last = "{:11} <".format
    usual = ("at most 720 degC", "705 degC")
    assert lines[at : at + 12] == [
        columns("requirement", "specified", "actual", "verdict"),
        "  ".join("-" * width for width in (30, 34, 34, 11)),
        columns("one", *usual, "met"),
        columns("two", *usual, last("not met")),
        columns("three", "at most 720 degC, and on a second", "705 degC", last("not shown")),
        columns("", "line this", "", "").rstrip(),
        columns("four", *usual, "met"),
        columns("five", *usual, last("met,")),
        columns("", "", "", "conditional"),
        columns("", "", "", "with guard"),
        columns("", "", "", "band"),
        columns("six", *usual, last("not met")),
    ]
    assert lines[at + 12 : at + 15] == ["", "two: not met", "  - it was too hot"]
    assert lines[-4:] == [
        "to be shown by other documents",
        "  - elsewhere: at most 720 degC",
        "",
        "not met: 2 met, 2 not met, 1 not shown, 1 met, conditional with guard band",
    ]
    assert max(map(len, lines)) <= 117


def test_sentences_are_wrapped_and_stay_below_their_mark() -> None:
    """115 letters wide with the mark of an item and its indent before: words of 9 letters and a
    blank, eleven to a line of 111."""
    lines = told(made("one", NOT_MET, sentences=("wordwords " * 12, "two\nlines")))
    at = lines.index("one: not met")
    full = " ".join(["wordwords"] * 11)
    assert lines[at : at + 5] == [
        "one: not met", f"  - {full}", "    wordwords", "  - two", "    lines",
    ]  # fmt: skip
