"""A fault of this program, said in one line that helps to mend it."""

from __future__ import annotations

import os

import hts


def fault(error: BaseException) -> str:
    """What to report: the kind of fault and where in the program it came up."""
    import traceback

    here = os.path.dirname(os.path.abspath(hts.__file__))
    frames = [f for f in traceback.extract_tb(error.__traceback__) if f.filename.startswith(here)]
    where = ""
    if frames:
        name = os.path.relpath(frames[-1].filename, os.path.dirname(here)).replace(os.sep, "/")
        where = f" at {name}:{frames[-1].lineno}"
    said = " ".join(str(error).split())[:120]
    kind = type(error).__name__ + (f": {said}" if said else "")
    return (
        f"a fault of hts {hts.__version__} ({kind}{where}), so this is not judged; please report "
        "it with the text"
    )
