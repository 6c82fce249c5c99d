"""The sheet of a run beside the text as it is now; figures are those of an invented job."""

from __future__ import annotations

import json
import re
from datetime import datetime
from pathlib import Path

import pytest

from hts.base.text import Source
from hts.job.compiler import compile_spec
from hts.job.outputs import job_json
from hts.language.model import Spec
from hts.record import faults, sheet
from hts.record.errors import RecordError
from hts.record.judging import MET, NOT_SHOWN, Judgement, Verdict, judge
from hts.record.plan import Plan, plan
from hts.record.reading import Options, read
from hts.record.simulation import Ask, simulate
from tests.texts import examples

PATH = str(Path(__file__).resolve().parents[2] / "specs" / "p22-header.hts")
TEXT = Path(PATH).read_text()


def plan_of(text: str) -> Plan:
    loader = examples()
    return plan(compile_spec(Spec(Source(text, "p22-header.hts", PATH), loader)))


@pytest.fixture(scope="module")
def judgement(tmp_path_factory: pytest.TempPathFactory) -> Judgement:
    log = tmp_path_factory.mktemp("run") / "run.csv"
    asked = plan_of(TEXT)
    log.write_text(simulate(asked, Ask(seed=1, start=datetime(2026, 11, 20, 6))))
    record = read([str(log)], asked.run.tags, Options())
    found = faults.find(record, asked)
    return judge(faults.apply(record, found), asked, found)


def beside(judgement: Judgement, text: str, folder: Path) -> Verdict:
    path = folder / "job.json"
    path.write_text(job_json.write(plan_of(text).job))
    given = sheet.judged(judgement, sheet.read(str(path)))
    assert given.verdicts[1:] == judgement.verdicts
    assert given.overall == (judgement.overall if given.verdicts[0].verdict == MET else NOT_SHOWN)
    return given.verdicts[0]


def test_the_same_sheet_is_met(judgement: Judgement, tmp_path: Path) -> None:
    told = beside(judgement, TEXT, tmp_path)
    assert (told.verdict, told.actual) == (MET, "the same")
    # A title changes the text and nothing that is asked for.
    told = beside(judgement, _replaced(TEXT, "closing weld", "last weld"), tmp_path)
    assert told.verdict == MET and told.actual == "the same, though the text has changed"


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("for 2 h at most 6 h", "for 3 h at most 6 h", ("step 3 time", "3 h", "2 h")),
        ("hold 690 .. 720 degC", "hold 695 .. 720 degC", ("step 3 window from", "695 °C")),
        ("heat to 705 degC        at most 120", "heat to 705 degC        at most 110", ("rate",)),
        ("T1S  spare for T1", "T1S  monitors weld", ("tags T1S", "spare")),
        ("excursion at most 10 min in total", "excursion at most 5 min in total", ("excursion",)),
        ("revision B on", "revision A on", ("revision A", "revision B")),
    ],
)
def test_what_the_sheet_asked_for_otherwise_is_told(
    judgement: Judgement, tmp_path: Path, old: str, new: str, said: tuple[str, ...]
) -> None:
    told = beside(judgement, _replaced(TEXT, old, new), tmp_path)
    sentences = " | ".join(failure.sentence for failure in told.failures)
    assert told.verdict == NOT_SHOWN and all(one in sentences for one in said), sentences


def _replaced(text: str, old: str, new: str) -> str:
    """`old` by `new`, however many blanks stand between its words."""
    pattern = r"[ ]+".join(re.escape(word) for word in old.split())
    changed, count = re.subn(pattern, new, text)
    assert count, old
    return changed


def test_a_sheet_of_another_joint(judgement: Judgement, tmp_path: Path) -> None:
    path = tmp_path / "job.json"
    made = json.loads(job_json.write(judgement.plan.job))
    made["joints"][0]["name"] = "W99"
    path.write_text(json.dumps(made))
    told = sheet.verdict(judgement, sheet.read(str(path)))
    assert told.failures[0].sentence == "the sheet has no W12/stress-relief"


@pytest.mark.parametrize("text", ["", "{", "[]", '{"joints": 3}', "spec 1\n"])
def test_what_is_no_sheet_is_refused(tmp_path: Path, text: str) -> None:
    path = tmp_path / "job.json"
    path.write_text(text)
    with pytest.raises(RecordError, match="this is not"):
        sheet.read(str(path))
