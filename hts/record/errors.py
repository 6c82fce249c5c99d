"""Why a record could not be read or judged."""

from __future__ import annotations


class RecordError(Exception):
    """`place` is a file, or `file:line:column` where one is known, or "" for the whole;
    `cause` says what was found there and `remedy` what to do about it.
    """

    def __init__(self, place: str, cause: str, remedy: str) -> None:
        self.place = place
        self.cause = cause
        self.remedy = remedy
        super().__init__(f"{place}: {cause}; {remedy}" if place else f"{cause}; {remedy}")


class NoRows(RecordError):
    """A log without a row of readings; one that is being written may have some soon."""


def missing_extra(package: str) -> RecordError:
    """The error for a package of the extra `record` that is not installed."""
    return RecordError(
        "", f"reading records needs the package {package!r}", 'run: pip install "hts[record]"'
    )
