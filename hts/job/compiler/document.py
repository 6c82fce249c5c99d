"""What names a document on each of its papers."""

from __future__ import annotations

from typing import NamedTuple

from hts import __version__
from hts.checking.govern import Authority
from hts.job.compiler.errors import CannotCompile
from hts.job.compiler.fingerprint import fingerprint, grouped
from hts.language.model import Spec


class Document(NamedTuple):
    """Identity of the papers; `digest` is the whole fingerprint, `fingerprint` what is printed."""

    title: str
    number: str
    revision: str
    dated: str
    status: str
    fingerprint: str
    digest: str
    tool: str

    @property
    def for_work(self) -> bool:
        """Whether the issue is released for work at the pipe."""
        return self.status == "for construction"


def document(spec: Spec, authorities: list[Authority]) -> Document:
    """Raises CannotCompile for a file without a job, whose papers nobody could tell apart."""
    job = spec.file.job
    if job is None:
        raise CannotCompile(["the file has no `job`, so its papers would have no number"])
    if not job.number.strip():
        raise CannotCompile(["the document has no number, so its papers could not be told apart"])
    digest = fingerprint(spec, authorities)
    revision = job.revision
    return Document(
        job.name,
        job.number,
        revision.name,
        revision.on or "",
        revision.status or "not stated",
        grouped(digest),
        digest,
        f"hts {__version__}",
    )
