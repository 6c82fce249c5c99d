"""Pages come out the same whatever was set before them, and leave nothing behind."""

import multiprocessing
import os
import tempfile
from concurrent.futures import ThreadPoolExecutor

import pytest

from hts.generate import ROOT
from hts.job.compiler import compile_spec
from hts.language.model import Spec
from hts.paper.packet.groups import subjects
from hts.paper.packet.packet_files import TEMPLATE, pages
from hts.paper.sheet import typeset
from hts.paper.sheet.typeset import pdf
from tests.sampling import whose_turn
from tests.texts import examples


@pytest.fixture(scope="module")
def sheets():
    """Three joints of two typicals."""
    loader = examples()
    job = compile_spec(Spec(loader.read(os.path.join(ROOT, "specs/turnaround-list.hts")), loader))
    some = {subject.sheets[0].joint.outside_diameter: subject for subject in subjects(job)}
    return [pages(subject) for subject in (*subjects(job)[:2], *list(some.values())[-1:])]


def alone(data: dict) -> bytes:
    """Set by a process that set nothing before."""
    with multiprocessing.get_context("spawn").Pool(1) as pool:
        return pool.apply(pdf, (TEMPLATE, data))


def test_pages_do_not_hang_on_what_was_set_before_or_beside_them(sheets) -> None:
    wanted = [pdf(TEMPLATE, data) for data in sheets]
    for number in whose_turn((0, 2)):
        assert alone(sheets[number]) == wanted[number]
    assert len(set(wanted)) == 3
    order = [2, 0, 1, 0, 2, 1, 1]
    assert [pdf(TEMPLATE, sheets[n]) for n in order] == [wanted[n] for n in order]
    with ThreadPoolExecutor(3) as pool:
        assert list(pool.map(lambda n: pdf(TEMPLATE, sheets[n]), order)) == [
            wanted[n] for n in order
        ]


def test_nothing_of_a_job_is_left_in_a_folder(sheets) -> None:
    pdf(TEMPLATE, sheets[0])
    left = [
        name
        for idle in typeset._IDLE[os.getpid()]
        for _, _, names in os.walk(idle.name)
        for name in names
    ]
    assert left and all(name.endswith(".typ") for name in left)


def test_what_cannot_be_written_leaves_nothing_either(sheets, monkeypatch, tmp_path) -> None:
    monkeypatch.setattr(typeset, "_IDLE", {})
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "gone"))
    with pytest.raises(OSError, match="gone"):
        pdf(TEMPLATE, sheets[0])
    assert not any(typeset._IDLE.values())


def test_templates_read_their_data_from_the_file_beside_them() -> None:
    """A setting would make every text another text for the one who sets it, and head and foot
    that know their document another setting."""
    for name in typeset._templates():
        with open(os.path.join(ROOT, "hts", name), encoding="utf-8") as file:
            text = file.read()
        assert "sys.inputs" not in text, name
        assert "header: head(" not in text and "foot(data)" not in text, name
