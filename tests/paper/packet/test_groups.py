"""Which joints share a packet, and what the files are called."""

import re
from pathlib import Path

from hts.base.fonts import given_font
from hts.checking.rules.examples import BASES, BUTT
from hts.paper.packet.groups import subjects
from hts.paper.packet.packet_files import TEMPLATE, pages, typeset
from hts.paper.sheet.fonts import beside
from hts.paper.sheet.typeset import pdf
from tests.jobs import job_at
from tests.paper.packet.jobs import ROOT, of_text, pages_of
from tests.paper.test_font import ALONE, font


def test_joints_heated_together_share_a_packet() -> None:
    found = subjects(job_at(ROOT / "specs" / "turnaround-many.hts"))
    assert [(one.name, one.file) for one in found] == [
        ("W21, W22", "W21-W22"),
        ("W23", "W23"),
        ("W24", "W24"),
        ("W25", "W25"),
    ]


def with_joints(names: list[str]) -> str:
    head, rest = BUTT.split("joint W12 {", 1)
    text = head + "joint W12 {" + rest
    for name in names:
        text += f'\njoint {name} like W12 {{\n  line "{name}"\n}}\n'
    listed = ", ".join(["W12", *names])
    return text.replace("preheat W12", f"preheat {listed}").replace("for W12", f"for {listed}")


def test_names_of_files_are_safe_and_none_is_there_twice() -> None:
    found = subjects(of_text(with_joints(["w12", "W.1", "W-1"])))
    files = [one.file for one in found]
    assert len({name.lower() for name in files}) == len(files) == 4
    assert all(re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9.-]*", name) for name in files)


def test_type_is_set_elsewhere_with_the_font_of_a_team(tmp_path: Path) -> None:
    """The machine that sets it is sent what the file of the font holds."""
    (tmp_path / "letters.ttf").write_bytes(font())
    own = given_font("letters.ttf", str(tmp_path), str(tmp_path))
    text = re.sub(r'job "[^"]*"', f'job "Hall {ALONE}"', BASES["preheat"], count=1)
    with beside(own):
        sheets = pages(subjects(of_text(text))[0])
        here = pdf(TEMPLATE, sheets)
    assert typeset(sheets, (own, font())) == here
    assert ALONE in "".join(pages_of(here))
