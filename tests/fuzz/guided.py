"""`python -m tests.fuzz.guided parser -max_total_time=600`: fuzzing guided by coverage.

Needs the package atheris, which nothing else does; what follows the target is for its libFuzzer.
A fault of the program ends the run and leaves the input in the working folder. The targets stand
on what everything else reads with; commands as a whole are for `python -m tests.fuzz`.
"""

from __future__ import annotations

import os
import sys
import tempfile
from collections.abc import Callable, Iterable
from contextlib import suppress
from itertools import chain

from hts.checking.rules.examples import BASES
from hts.generate import ROOT


def _parser(data: bytes) -> None:
    """Text to tree to entries, and the layout of what could be read."""
    from hts.base.findings import Report
    from hts.base.text import Source
    from hts.language.layout.guard import settled
    from hts.language.vocabulary.reader import Reader
    from hts.language.vocabulary.spec import File
    from hts.syntax import parse

    text = data.decode("utf-8", "replace")
    source, report = Source(text, "a.hts"), Report()
    tree = parse(source, report)
    assert "".join(tree.pieces()) == text
    Reader(source, report, File).read(tree.entries)
    laid = Report()
    settled(source, laid)
    assert all(finding.kind.name != "layout-guard" for finding in laid.findings)


def _formula(data: bytes) -> None:
    """Formulas and conditions, their kinds worked out."""
    from hts.limits import FACTS
    from hts.syntax.formula import CONDITION, Formula, FormulaError

    text = data.decode("utf-8", "replace")
    names = {name: fact.kind for name, fact in FACTS.items()}
    for wants in (None, CONDITION):
        with suppress(FormulaError):
            Formula.parse(text, wants).check(names)


def _log(data: bytes) -> None:
    """A log of a recorder."""
    _record(data, ".csv")


def _events(data: bytes) -> None:
    """The YAML beside a log."""
    _record(data, ".events.yaml")


_HEAD = b"time,T1 [degC]\n"
_ROWS = b"".join(b"2026-10-02 06:%02d:00,%d\n" % (n, 20 + n) for n in range(20))
_FOLDER = tempfile.mkdtemp(
    prefix="hts-guided-", dir="/dev/shm" if os.path.isdir("/dev/shm") else None
)


def _record(data: bytes, ending: str) -> None:
    from hts.record.errors import RecordError
    from hts.record.reading import Options, read

    for name, content in ((".csv", _HEAD + _ROWS), (ending, data)):
        with open(os.path.join(_FOLDER, f"log{name}"), "wb") as file:
            file.write(content)
    with suppress(RecordError):
        read([os.path.join(_FOLDER, "log.csv")], None, Options())


TARGETS: dict[str, Callable[[bytes], None]] = {
    "parser": _parser, "formula": _formula, "log": _log, "events": _events,
}  # fmt: skip


def seeds(target: str) -> Iterable[bytes]:
    """Good inputs to begin with."""
    if target == "parser":
        return [text.encode() for text in BASES.values()]
    if target == "log":
        folder = os.path.join(ROOT, "tests", "record", "open_logs")
        logs = (os.path.join(folder, n) for n in os.listdir(folder) if n.endswith(".csv"))
        return chain([_HEAD + _ROWS], (open(path, "rb").read()[:4000] for path in logs))
    if target == "events":
        return [b"- {at: 2026-10-02 06:03, kind: power lost}\n- {at: 3 min, kind: note}\n"]
    return [
        b"min(30 mm, t) when t <= 25 mm and p_number = 5A",
        b"round_up(t, 25 mm) * 1 h/in + 2 h",
    ]


def main() -> None:
    """Hands over to libFuzzer, which ends the process."""
    import atheris

    target = sys.argv[1]
    with atheris.instrument_imports(include=["hts"]):
        run = TARGETS[target]
        run(next(iter(seeds(target))))
    corpus = tempfile.mkdtemp(prefix="hts-corpus-")
    for number, seed in enumerate(seeds(target)):
        with open(os.path.join(corpus, str(number)), "wb") as file:
            file.write(seed)
    atheris.Setup([sys.argv[0], corpus, *sys.argv[2:]], run)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
