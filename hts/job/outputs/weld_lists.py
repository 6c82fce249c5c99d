"""Which weld lists the joints of a job come from: their files and revisions are printed, since they
are kept by somebody else."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from hts.job.outputs.paper import Paper
from hts.language.model import Spec


def said(spec: Spec, names: Iterable[str]) -> Iterator[str]:
    """One line for each list that any of these joints is a row of."""
    wanted = set(names)
    for listed in spec.weld_lists:
        joints = [name for row in listed.joints for name in row.names]
        here = [name for name in joints if name in wanted]
        if not here:
            continue
        revision = (
            f", its revision {listed.revision}" if listed.revision else ", no revision stated"
        )
        only = ""
        if listed.only is not None:
            texts = " or ".join(f'"{text}"' for text in listed.only.texts)
            only = f' where "{listed.only.column}" is {texts}'
        yield (
            f"Weld list {listed.name}: {listed.path}{revision}, {listed.rows} rows, "
            f"{len(joints)} welds{only}"
        )


def write(page: Paper, spec: Spec, names: Iterable[str]) -> None:
    """The lists as lines of a paper."""
    for line in said(spec, names):
        page.line(line)
