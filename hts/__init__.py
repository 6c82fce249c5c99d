"""Specification language for preheat, hydrogen bake-out and post-weld heat treatment of welds.

As a library:

    load          a specification, from a file or a text
    check         its findings
    compile       the compiled job, every value with its reason
    diff          what changed between two specifications, by meaning
    format        a text in the one layout
    fingerprint   what stands on the papers of a specification
    judge         a recorded run held against a job
    tables        the tables of a job, for polars and pandas
    drawings      the drawings of a job, as SVG

    >>> import hts
    >>> job = hts.compile(hts.load("specs/p22-header.hts"))

In a notebook, findings, jobs, comparisons, judged records and drawings show themselves. Rules of
your own: `hts.plugin`. More in grammar/API.md.
"""

# Nothing is imported here: `python -m hts` begins with this file, and only the next one keeps
# modules of the working folder out.
TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from hts.api import (
        CannotCompile,
        CannotFormat,
        Comparison,
        ConfigurationError,
        Finding,
        Findings,
        Job,
        PackError,
        Spec,
        Unreadable,
        check,
        compile,
        diff,
        drawings,
        fingerprint,
        format,
        judge,
        load,
        tables,
    )

__version__ = "0.1.0"
__all__ = [
    "CannotCompile",
    "CannotFormat",
    "Comparison",
    "ConfigurationError",
    "Finding",
    "Findings",
    "Job",
    "PackError",
    "Spec",
    "Unreadable",
    "__version__",
    "check",
    "compile",
    "diff",
    "drawings",
    "fingerprint",
    "format",
    "judge",
    "load",
    "tables",
]


def __getattr__(name: str) -> "Any":
    """The functions and types of `hts.api`, imported when they are first asked for."""
    if name in __all__:
        from hts import api

        return getattr(api, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
