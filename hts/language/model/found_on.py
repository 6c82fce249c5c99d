"""What was found afterwards, and the joints it was found on: those of the text it lies beside."""

from __future__ import annotations

from collections.abc import Collection

from hts.base.findings import Finding, Label, Report
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.spec import File

_RESULTS = ".results.hts"


def text_of(path: str | None) -> str | None:
    """The path of the specification that a results file lies beside; None for another file."""
    if path is None or not path.endswith(_RESULTS):
        return None
    return path[: -len(_RESULTS)] + ".hts"


def unknown_joints(file: File, known: Collection[str], report: Report) -> None:
    """Reports results of joints that are not there; nothing where no joint is ``known``."""
    for entry in file.results if known else ():
        for name in entry.joints:
            if name not in known:
                report.add(
                    Finding(
                        mistakes.UNKNOWN_NAME,
                        f"results are given of {name}, and no joint is named so",
                        Label(entry.place("joints")),
                        address=name,
                        help=f"declared are: {', '.join(sorted(known)[:12])}",
                    )
                )
