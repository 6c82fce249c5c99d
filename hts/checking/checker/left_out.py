"""What a walk over a folder leaves out: what git ignores, and what settings exclude.

A file that git tracks is never left out because a `.gitignore` names it: a change that brought both
along would hide it.
"""

from __future__ import annotations

import os
from functools import lru_cache

from hts.base.text.reading import root_of

IGNORES = ".gitignore"


class Ignored:
    """The folders and files below a folder that git ignores; git is asked once, and only where a
    `.gitignore` turns up."""

    def __init__(self, folder: str) -> None:
        self._folder = os.path.realpath(folder)
        self._root = root_of(folder)
        self._given = folder
        self._known: frozenset[str] | None = None
        self._asked = not os.path.exists(os.path.join(self._root, ".git"))
        above = self._folder
        while not self._asked:
            if os.path.isfile(os.path.join(above, IGNORES)):
                self._ask()
            if above == self._root:
                break
            above = os.path.dirname(above)

    def seen(self, names: list[str]) -> None:
        """Tells the names in a folder before what it holds is asked about."""
        if not self._asked and IGNORES in names:
            self._ask()

    def __contains__(self, path: str) -> bool:
        """Whether git ignores a file or folder, found below the folder as it was given."""
        if not self._known:
            return False
        below = path[len(self._given) :].lstrip(os.sep)
        full = os.path.join(self._folder, below)
        return os.path.relpath(full, self._root).replace(os.sep, "/") in self._known

    def _ask(self) -> None:
        import subprocess

        self._asked = True
        command = [
            "git", "-C", self._root, "--no-optional-locks", "ls-files", "-z",
            "--others", "--ignored", "--exclude-standard", "--directory",
        ]  # fmt: skip
        try:
            run = subprocess.run(command, capture_output=True, check=False)
        except OSError:  # without git nothing is known to be ignored
            return
        if run.returncode == 0:
            listed = os.fsdecode(run.stdout).split("\0")
            self._known = frozenset(path.rstrip("/") for path in listed if path)


@lru_cache(maxsize=64)
def _patterns(patterns: tuple[str, ...]) -> object:
    # Only settings that exclude something pay for it.
    from pathspec import GitIgnoreSpec

    return GitIgnoreSpec.from_lines(patterns)


def matches(path: str, patterns: tuple[str, ...], base: str) -> bool:
    """Whether patterns name a file as they would in a `.gitignore` of the folder ``base``."""
    below = os.path.relpath(os.path.realpath(path), base).replace(os.sep, "/")
    if below.startswith("../"):
        return False
    return bool(_patterns(patterns).match_file(below))  # type: ignore[attr-defined]
