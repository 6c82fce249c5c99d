"""The logs of a folder, each with the specification it belongs to."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from hts.base.text.reading import Unreadable, read_text, regular
from hts.checking.checker.check_paths import files_below
from hts.checking.checker.results import UncheckedFile
from hts.job.outputs.job_files import NAMES
from hts.record.archive.line import AMBIGUOUS, UNKNOWN, UNNAMED, UNREADABLE
from hts.record.errors import RecordError
from hts.record.labels import Labels, labels

_TEXTS = (".csv", ".txt", ".tsv", ".log", ".dat")
_WORKBOOK = ".xlsx"
SUFFIXES = (*_TEXTS, *(f"{suffix}.gz" for suffix in _TEXTS), _WORKBOOK)
#: What `hts record check` calls the workbook of a judged record.
_JUDGED = "-record.xlsx"
#: A job, and the number of its document, each on a line of its own.
_JOB = re.compile(r"^[ \t]*job\b", re.MULTILINE)
_NUMBER = re.compile(r'^[ \t]*number[ \t]+"((?:[^"\\\n]|\\.)*)"', re.MULTILINE)


_SAYS_NOTHING = (
    "neither the log nor its name says which document it belongs to; write `document: …` into the "
    "map beside it"
)


class Specifications(NamedTuple):
    """`by_number`: number of the document -> paths of the files with a job of that number; `lost`:
    those that no log can be told to belong to, each with a word and a reason why."""

    by_number: dict[str, list[str]]
    lost: tuple[UncheckedFile, ...]


class Found(NamedTuple):
    """A log: `name` is its path below the folder, `spec` the path of its specification, "" where
    none was found, and then `why` in a word and `reason` in a sentence."""

    name: str
    path: str
    labels: Labels
    spec: str
    why: str = ""
    reason: str = ""


def specifications(path: str) -> Specifications:
    """The specifications below a folder, or the one in a file. A file without a job is a
    library; of every other one something is told."""
    by_number: dict[str, list[str]] = {}
    lost: list[UncheckedFile] = []
    for file in [path] if os.path.isfile(path) else files_below(path):
        if isinstance(file, UncheckedFile):
            lost.append(file)
            continue
        try:
            text = read_text(file)
        except Unreadable as error:
            lost.append(UncheckedFile(file, str(error)))
            continue
        if "\0" in text:
            reason = "it holds NUL bytes, as text in UTF-16 does; save it as UTF-8"
            lost.append(UncheckedFile(file, reason))
            continue
        job = _JOB.search(text)
        number = _NUMBER.search(text, job.end() if job is not None else 0)
        if number is not None:
            by_number.setdefault(re.sub(r"\\(.)", r"\1", number[1]), []).append(file)
        elif job is not None:
            lost.append(UncheckedFile(file, 'its job has no number; write `number "…"` into it'))
    return Specifications(by_number, tuple(lost))


def logs_below(folder: str) -> Iterator[str | UncheckedFile]:
    """Paths of the logs below a folder, by name, and the folders that could not be looked into;
    hidden ones are passed over."""
    unread: list[UncheckedFile] = []

    def note(error: OSError) -> None:
        reason = (error.strerror or str(error)).lower()
        unread.append(UncheckedFile(error.filename or folder, f"it cannot be read: {reason}"))

    for where, folders, names in os.walk(folder, onerror=note):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        # Beside a compiled job lie the tables made of it; they are no readings.
        made = NAMES if "job.json" in names else ()
        for name in sorted(names):
            low = name.lower()
            if not low.endswith(SUFFIXES) or name in made or low.endswith(_JUDGED):
                continue
            # So do workbooks of the job, under names of its joints.
            if not (low.endswith(_WORKBOOK) and made):
                yield os.path.join(where, name)
    yield from unread


def found(folder: str, specs: dict[str, list[str]]) -> Iterator[Found]:
    """Every log with its specification."""
    for path in logs_below(folder):
        where = path.name if isinstance(path, UncheckedFile) else path
        name = os.path.relpath(where, folder).replace(os.sep, "/")
        try:
            if isinstance(path, UncheckedFile):
                raise Unreadable(path.reason)
            regular(path)
            own_labels = labels(path)
        except (RecordError, Unreadable, OSError) as error:
            reason = getattr(error, "strerror", None) or str(error)
            yield Found(name, where, Labels(), "", UNREADABLE, reason)
            continue
        if not own_labels.document:
            own_labels = own_labels._replace(document=_by_name(os.path.basename(where), specs))
        yield _belonging(name, where, own_labels, specs)


def _belonging(name: str, path: str, own_labels: Labels, specs: dict[str, list[str]]) -> Found:
    document = own_labels.document
    files = specs.get(document, [])
    if len(files) == 1:
        return Found(name, path, own_labels, files[0])
    if not document:
        why, reason = UNNAMED, _SAYS_NOTHING
    elif not files:
        why, reason = UNKNOWN, f"there is no specification {document}"
    else:
        why = AMBIGUOUS
        reason = f"several specifications are {document}: {', '.join(sorted(files))}"
    return Found(name, path, own_labels, "", why, reason)


def _by_name(name: str, numbers: Iterable[str]) -> str:
    """The longest number of a document that a file is named after."""
    stem = os.path.splitext(name)[0].casefold()
    fitting = [
        n for n in numbers if re.search(rf"(?<!\w){re.escape(n.casefold())}(?![^\W_])", stem)
    ]
    return max(fitting, key=len, default="")
