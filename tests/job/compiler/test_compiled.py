"""All that is worked out of texts that say nearly everything: digests, for the files written from
it are read in `tests/job/outputs/told`."""

from __future__ import annotations

from pathlib import Path

from tests import told
from tests.rich import texts
from tests.rich.dumped import dumped

KEPT = Path(__file__).with_name("told")


def test_what_is_compiled() -> None:
    lines = []
    for name in texts.NAMES:
        job = texts.job(name)
        sheets = [line for sheet in job.joints for line in dumped(sheet[2:])]
        lines.append(f"{name}: {told.digest(sheets)} {told.digest(dumped(job.document[:5]))}")
        told.write_whole(KEPT / "compiled.txt", name, sheets)
    told.same(KEPT / "compiled.txt", "all", "\n".join(lines))
