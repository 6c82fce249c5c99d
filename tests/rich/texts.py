"""Specifications that say nearly everything the language has, for tests that read what comes of it.

The `pipe-*.hts` here are one pipe weld each under a procedure, with preheat, bake and treatment;
together they make every choice of `tests/pairs` once. They were put together by chance and have no
error; what is practical is in `specs`. The others stand for what a weld round a pipe has not.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from hts.base.text import Source
from hts.checking.rules.examples import BASES
from hts.job.compiler import Job, compile_spec
from hts.language.model import Spec
from tests.texts import examples, spec_of

_HERE = Path(__file__).parent
#: Names of files are told from here, whether or not a repository is around it.
_TOP = _HERE.parents[1]
_RIGHT = _HERE.parent / "specs" / "right"

#: By name, the one all others are compared with first.
PATHS: Mapping[str, Path] = {
    **{path.stem: path for path in sorted(_HERE.glob("*.hts"))},
    **{
        name: _RIGHT / f"{name}.hts"
        for name in ("seam-and-pad", "furnace-spool", "dissimilar-butt", "two-cycles",
                     "induction-cycle", "welds-with-commas")
    },
}  # fmt: skip
_BASES = ("branch", "preheat")
NAMES = (*PATHS, *_BASES)
FIRST = NAMES[0]


def spec(name: str, more: str = "") -> Spec:
    """Read anew, with some lines more."""
    if name in _BASES:
        return spec_of(BASES[name] + more, f"{name}.hts")
    path = str(PATHS[name])
    loader = examples()
    source = loader.read(path)
    return Spec(Source(source.text + more, source.name, source.path) if more else source, loader)


@cache
def job(name: str) -> Job:
    return compile_spec(spec(name))
