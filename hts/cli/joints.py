"""The papers of some joints only, and those of each joint in a folder of its own."""

from __future__ import annotations

import click

from hts.checking.report.terminal import printable
from hts.cli.papers import Request, added
from hts.cli.progress import progress
from hts.job.compiler import Job
from hts.job.outputs import files
from hts.job.outputs.job_files import JOB_JSON, TABLES

#: Papers that are made once for all joints.
_FOR_ALL = ("kit", "labels")
#: What is in them for one joint is in the packet, which is made for all at once.
_AT_ONCE = "packet"
#: From here on the work takes long enough to be shown.
_WORTH = 8


def some_of(job: Job, names: tuple[str, ...], only_changed: bool) -> Job:
    """The job with the joints asked for. Raises click.ClickException where there are none."""
    known = [sheet.joint.name for sheet in job.joints]
    unknown = [name for name in names if name not in known]
    if unknown:
        from hts.language.vocabulary.suggest import nearest

        guess = nearest(unknown[0], known)
        hint = f"; did you mean {guess}?" if guess else ""
        raise click.ClickException(f"no joint of the job is named {printable(unknown[0])}{hint}")
    wanted = set(names or known)
    if only_changed and job.changes is not None:
        wanted &= changed(job)
        if not wanted:
            raise click.ClickException(
                f"nothing changed for these joints since {printable(job.changes.since)}; nothing "
                "was written"
            )
    return job._replace(joints=tuple(s for s in job.joints if s.joint.name in wanted))


def changed(job: Job) -> set[str]:
    """The joints whose papers say something else than before. What no joint is named for reaches
    all of them, but for what identifies the document."""
    assert job.changes is not None
    known = {sheet.joint.name for sheet in job.joints}
    found = {row[0] for row in job.changes.rows}
    for line in job.changes.lines:
        first, _, rest = line.address.partition("/")
        if first in known:
            found.add(first)
        elif line.what.startswith("joint removed"):
            continue
        elif not (first == "job" and rest.split("/")[0] in _IDENTITY):
            # A procedure, a material, an instrument: whose it is is not told.
            return known
    return found & known


#: What every paper carries and no joint is treated otherwise for.
_IDENTITY = ("revision", "history", "signed")


def in_folders(request: Request, asked: dict[str, bool]) -> dict[str, bytes]:
    """Name -> bytes: `job.json`, what is summed over all joints and the index page at the top, and
    a folder for each joint, or for joints heated together. Raises click.ClickException."""
    from hts.job.outputs.index_page import NAME, Entry, index_page
    from hts.paper.packet.groups import subjects

    job = request.job
    found = files(job, [JOB_JSON])
    top = {name: wanted and name in _FOR_ALL for name, wanted in asked.items()}
    found |= added(top, request)
    packets = added({**dict.fromkeys(asked, False), _AT_ONCE: asked[_AT_ONCE]}, request)
    inner = {n: wanted and n not in (*_FOR_ALL, _AT_ONCE) for n, wanted in asked.items()}
    entries = []
    groups = subjects(job)
    tell = progress(_WORTH, "joints")
    for number, subject in enumerate(groups, 1):
        one = request._replace(job=job._replace(joints=subject.sheets), labels={}, part=None)
        papers = files(one.job, TABLES)
        papers |= {n: packets[n] for n in packets if _of(n, subject.file)}
        papers |= added(inner, one)
        found |= {f"{subject.file}/{name}": data for name, data in papers.items()}
        entries.append(Entry(subject.file, subject.sheets, tuple(papers)))
        if tell is not None:
            tell(number, len(groups))
    found[NAME] = index_page(job, entries, tuple(found)).encode("utf-8")
    return found


def _of(name: str, file: str) -> bool:
    """Whether a packet is that of the subject with this file name."""
    stem = name.removeprefix("packet-").removesuffix(".pdf")
    return stem in (file, f"{file}-pipe", f"{file}-file")
