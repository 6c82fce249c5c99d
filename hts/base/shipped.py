"""Files that are installed with the program: references and examples."""

from __future__ import annotations

import os

import hts

#: Folder as it is installed below the package -> as it lies beside the package in a working copy.
_FOLDERS = {"grammar": "grammar", "examples": "specs"}


def shipped(folder: str, name: str = "") -> str | None:
    """The path of a file of a folder of _FOLDERS, or of the folder; None where it is not there."""
    package = os.path.dirname(os.path.abspath(hts.__file__))
    beside = os.path.join(os.path.dirname(package), _FOLDERS[folder])
    for place in (os.path.join(package, folder), beside):
        path = os.path.join(place, name) if name else place
        if os.path.exists(path):
            return path
    return None
