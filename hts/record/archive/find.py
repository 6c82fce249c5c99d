"""The logs of a folder, each with the specification it belongs to."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from hts.checking.checker.check_paths import files_below
from hts.checking.checker.results import UncheckedFile
from hts.job.outputs.job_files import NAMES
from hts.record.errors import RecordError
from hts.record.labels import Labels, labels

_TEXTS = (".csv", ".txt", ".tsv", ".log", ".dat")
_WORKBOOK = ".xlsx"
SUFFIXES = (*_TEXTS, *(f"{suffix}.gz" for suffix in _TEXTS), _WORKBOOK)
#: What `hts record check` calls the workbook of a judged record.
_JUDGED = "-record.xlsx"
_NUMBER = re.compile(r'^[ \t]*number[ \t]+"((?:[^"\\\n]|\\.)*)"', re.MULTILINE)
#: Bytes of a specification in which its number stands.
_HEAD = 65_536


class Found(NamedTuple):
    """A log: `name` is its path below the folder, `spec` the path of its specification, "" where
    none was found, and `reason` why not."""

    name: str
    path: str
    labels: Labels
    spec: str
    reason: str = ""


def specifications(path: str) -> dict[str, list[str]]:
    """Number of the document -> paths of the files with a job of that number."""
    found: dict[str, list[str]] = {}
    for file in [path] if os.path.isfile(path) else files_below(path):
        if isinstance(file, UncheckedFile):
            continue  # told where it is checked
        try:
            with open(file, "rb") as opened:
                text = opened.read(_HEAD).decode("utf-8", "replace")
        except OSError:
            continue  # told where it is checked
        number = _NUMBER.search(text)
        if number is not None:
            found.setdefault(re.sub(r"\\(.)", r"\1", number[1]), []).append(file)
    return found


def logs_below(folder: str) -> Iterator[str]:
    """Paths of the logs below a folder, by name; hidden folders are passed over."""
    for where, folders, names in os.walk(folder):
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


def found(folder: str, specs: dict[str, list[str]]) -> Iterator[Found]:
    """Every log with its specification."""
    for path in logs_below(folder):
        name = os.path.relpath(path, folder).replace(os.sep, "/")
        try:
            own_labels = labels(path)
        except RecordError as error:
            yield Found(name, path, Labels(), "", str(error))
            continue
        if not own_labels.document:
            own_labels = own_labels._replace(document=_by_name(os.path.basename(path), specs))
        yield _belonging(name, path, own_labels, specs)


def _belonging(name: str, path: str, own_labels: Labels, specs: dict[str, list[str]]) -> Found:
    if not own_labels.document:
        return Found(
            name,
            path,
            own_labels,
            "",
            "neither the log nor its name says which document it belongs to; write `document: …` "
            "into "
            "the map beside it",
        )
    files = specs.get(own_labels.document, [])
    if len(files) == 1:
        return Found(name, path, own_labels, files[0])
    reason = (
        f"there is no specification {own_labels.document}"
        if not files
        else f"several specifications are {own_labels.document}: {', '.join(sorted(files))}"
    )
    return Found(name, path, own_labels, "", reason)


def _by_name(name: str, numbers: Iterable[str]) -> str:
    """The longest number of a document that a file is named after."""
    stem = os.path.splitext(name)[0].casefold()
    fitting = [
        n for n in numbers if re.search(rf"(?<!\w){re.escape(n.casefold())}(?![^\W_])", stem)
    ]
    return max(fitting, key=len, default="")
