"""What is wrong with a text in double quotes is told once, with its cause."""

from hts.base.findings import Report
from hts.base.text import Source
from hts.syntax import parse
from tests.rows import each_row


@each_row(
    ("text", "at", "message"),
    [
        # Nothing closes the text.
        ('a "x\nb\n', '"x', "this text is not closed on its line"),
        ('a "', '"', "this text is not closed on its line"),
        (r'a "x\"' + "\nb\n", r'"x\"', "this text is not closed on its line"),
        (r'a "x\\\"' + "\n", r'"x\\\"', "this text is not closed on its line"),
        # The brace that ends the line opens the block all the same.
        ('a "x {\n  b\n}\nc\n', '"x', "this text is not closed on its line"),
        ('a "x {\r\n  b\r\n}\r\n', '"x', "this text is not closed on its line"),
        ('a "x { y\nb\n', '"x { y', "this text is not closed on its line"),
        # A backslash that stands for nothing, as in a path.
        ('a "C:\\site"\nb\n', '"C:\\site', r"\s is not an escape in a text"),
        ('a "C:\\site" {\n  b\n}\n', '"C:\\site', r"\s is not an escape in a text"),
        ('a "C:\\\\new\\site"\n', '"C:\\\\new\\site', r"\s is not an escape in a text"),
        ('a "x\\', '"x\\', "\\ is not an escape in a text"),
    ],
)
def test_a_text_that_cannot_be_read_is_one_finding(text: str, at: str, message: str) -> None:
    report = Report()
    tree = parse(Source(text, "text.hts"), report)
    found = [(f.kind.code, f.at.span.text, f.message) for f in report.findings]
    assert found == [("S102", at, message)]
    assert "".join(tree.pieces()) == text


def test_a_thousand_backslashes_take_no_longer_than_they_are_long() -> None:
    # One token: no way through the pattern is tried again for another end.
    report = Report()
    parse(Source('a "' + "\\" * 100_001 + "\n", "text.hts"), report)
    assert [finding.at.span.start for finding in report.findings] == [2]
