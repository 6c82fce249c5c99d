"""Name and mark of a company at the head of a packet."""

from pathlib import Path

from hts.paper.packet import files
from tests.jobs import job_at
from tests.paper.packet.jobs import ROOT, pages_of
from tests.paper.sheet.test_letterhead import MARK, taken


def test_company_and_mark_stand_on_the_first_sheet(tmp_path: Path) -> None:
    made = taken(tmp_path, "mark.svg", MARK)
    job = job_at(ROOT / "specs" / "induction-preheat.hts")
    ((_, data),) = files(job, parts=("pipe",), letterhead=made).items()
    first, second, *_ = pages_of(data)
    assert "Tern Island Heat" in first and "Tern Island Heat" not in second
    assert files(job, parts=("pipe",), letterhead=made) == {"packet-W61-pipe.pdf": data}
