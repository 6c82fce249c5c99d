"""Called by git in place of its own diff: which two texts it means.

git hands over the path, and for either side a file, the name of its content and its mode; after a
rename the new path, too. It does not tell which revision a content belongs to. The files a
specification uses are therefore looked for where that content is: staged, in HEAD or in its
parent; failing that in the working folder.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from hts.base.text import BYTE_ORDER_MARK, Source
from hts.base.text.reading import Unreadable, read_text
from hts.job.comparison.revisions import INDEX, NOWHERE, CannotRead, Repository, RevisionLoader
from hts.language.model import Loader, Spec
from hts.language.model.defaults import NO_DEFAULTS, Defaults

#: Set by git for the programs it calls so.
CALLED_BY_GIT = "GIT_DIFF_PATH_COUNTER"
#: path old-file old-hex old-mode new-file new-hex new-mode [new-path [what became of it]]
ARGUMENTS = (7, 8, 9)
_UNKNOWN = "0"


class Called(NamedTuple):
    """Both sides, None where there is no file, and what the reader should know."""

    old: Spec | None
    new: Spec | None
    notes: list[str]


def called(arguments: Sequence[str], defaults: Defaults = NO_DEFAULTS) -> Called:
    """What git means by these arguments. Raises CannotRead."""
    path, old_file, old_name, _, new_file, new_name = arguments[:6]
    new_path = arguments[7] if len(arguments) > 7 else path
    repository = Repository(os.getcwd())
    notes: list[str] = []
    known = set(new_name) > {_UNKNOWN}
    old_places = ("HEAD^", "HEAD", INDEX) if known else (INDEX, "HEAD")
    sides: list[Spec | None] = []
    for file, name, where, places in (
        (old_file, old_name, path, old_places),
        (new_file, new_name, new_path, (INDEX, "HEAD")),
    ):
        if file == NOWHERE:
            sides.append(None)
            continue
        loader = _loader(repository, name, where, places)
        if type(loader) is Loader and set(name) > {_UNKNOWN}:
            notes.append(
                f"{name[:8]}:{where}: the files it uses are read from the working folder, because "
                f"git does not tell its revision"
            )
        sides.append(_spec(file, name, where, loader, defaults))
    return Called(sides[0], sides[1], notes)


def _loader(repository: Repository, name: str, path: str, places: Iterable[str]) -> Loader:
    """A loader of the first revision that has this content at this path."""
    if set(name) > {_UNKNOWN}:
        for revision in places:
            try:
                loader = RevisionLoader(repository, revision)
            except CannotRead:  # a first commit has no parent
                continue
            if loader.files.get(path) == name:
                return loader
    return Loader(repository.root)


def _spec(file: str, name: str, path: str, loader: Loader, defaults: Defaults) -> Spec:
    """The text of the file git wrote, read as if it lay at its path."""
    try:
        text = read_text(file).removeprefix(BYTE_ORDER_MARK)
    except Unreadable as error:
        raise CannotRead(str(error)) from None
    shown = f"{name[:8]}:{path}" if set(name) > {_UNKNOWN} else path
    return Spec(Source(text, shown, os.path.join(loader.root, path)), loader, defaults)
