"""Which joints share a packet, and what the files are called."""

import re

from hts.checking.rules.examples import BUTT
from hts.paper.packet.groups import subjects
from tests.paper.packet.jobs import ROOT, job_of, of_text


def test_joints_heated_together_share_a_packet() -> None:
    found = subjects(job_of(ROOT / "specs" / "turnaround-many.hts"))
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
