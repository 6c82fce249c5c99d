"""grammar/REQUIREMENTS.md: the kinds of requirement of real procedures, and how each is said."""

from __future__ import annotations

import os
from typing import NamedTuple

from hts.base.text import Source
from hts.language.model import Loader, Spec
from hts.language.vocabulary.demand_lines import DemandLine, Forbids
from hts.language.vocabulary.paths import title
from hts.language.vocabulary.procedure import Procedure

PATH = "grammar/REQUIREMENTS.md"
_ROWS = "hts/generate/requirement_kinds.txt"
_JOB = "tests/specs/jobs/shipyard.hts"

_HEAD = """\
# Kinds of requirement

<!-- Written by `python -m hts.generate` from hts/generate/requirement_kinds.txt. -->

What procedures of owners, yards and makers ask for, where it is asked for, and how it is said here.
Each kind has a line that an example job meets and one it breaks; both are run as tests. *Checked*:
`hts check` holds the job against the line. *Printed*: the packet has the demand, or the limit, and
the line of the job that meets it. *Judged*: by the readings of the **record**, by the **results**
written down afterwards, or on **paper** by whoever signs, where nothing can be read off.
"""

_GAPS = (
    (
        "mechanical stress relief, vibration, peening as treatment",
        "not by heat: out of scope. `weld or peen afterwards` tells what is peened later",
    ),
    (
        "hydrogen left, by measurement",
        "checked by estimate; there is nothing to read it from afterwards",
    ),
    (
        "a method that no job can state, such as an exothermic kit",
        "jobs heat by resistance, induction, furnace or gas; nothing else can be written",
    ),
)


class RequirementKind(NamedTuple):
    """One kind: its name, where it is asked for, a line met, a line broken, who judges, and the job
    the two lines are put to."""

    group: str
    kind: str
    source: str
    met: str
    broken: str
    judged: str
    job: str


def kinds(root: str) -> list[RequirementKind]:
    """The rows of the table, in order."""
    found = []
    group, job = "", _JOB
    with open(os.path.join(root, _ROWS), encoding="utf-8") as file:
        for line in file.read().splitlines():
            if line.startswith("## "):
                group, _, other = line.removeprefix("## ").partition(" @ ")
                job = other or _JOB
            elif line and not line.startswith("#"):
                kind, source, met, broken, judged = (part.strip() for part in line.split("|"))
                found.append(RequirementKind(group, kind, source, met, broken, judged, job))
    return found


def generate(root: str) -> dict[str, str]:
    """The table by its path."""
    lines = [_HEAD.rstrip()]
    group = ""
    for row in kinds(root):
        if row.group != group:
            group = row.group
            lines += [
                f"\n## {group}\n",
                "| kind | source | in a job | in a procedure | checked | printed | judged |",
                "|---|---|---|---|---|---|---|",
            ]
        lines.append(
            f"| {row.kind} | {row.source} | {_in_job(row)} | `{row.met}` | yes | yes "
            f"| {row.judged} |"
        )
    lines += ["\n## Gaps\n", "| kind | what there is |", "|---|---|"]
    lines += [f"| {kind} | {what} |" for kind, what in _GAPS]
    return {PATH: "\n".join(lines) + "\n"}


def _in_job(row: RequirementKind) -> str:
    """The entry of a job that states it; of a limit, what it limits."""
    source = Source(f"spec 1\nprocedure K {{\n  {row.met}\n}}\n", row.kind)
    spec = Spec(source, Loader("/"))
    if spec.findings:
        raise ValueError(f"{row.kind}: {spec.findings[0].message}")
    procedure: Procedure = spec.file.procedures[0]
    lines: list[DemandLine | Forbids] = [*procedure.requires, *procedure.forbids]
    for line in lines:
        if line.what is not None:
            target = line.what.targets[0]
            steps = [title(target.root), *(title(f.entry) for f in target.chain if f.entry)]
            fields = [" ".join(test.field.words) for test in line.what.tests if test.field.words]
            return f"`{' '.join([*steps, *fields[:1]])}`"
    if procedure.limits:
        return procedure.limits[0].quantity
    return "as the line says"
