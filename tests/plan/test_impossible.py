"""What no machine can do is told with the joints, what they need and what there is."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

pytest.importorskip("ortools", reason="the extra `plan` is not installed")

from hts.cli.plan import command
from tests.specs.found import SPECS

#: What is changed in the store of instruments and in the text, and what the plan then says.
_ERROR = "nothing is planned: the text has "
CASES = {
    "control channels": (
        ("channels           6 type K", "channels           1 type K"),
        None,
        (
            f"{_ERROR}an error\n",
            "\n  W23/thermocouples/T2: T2 is on channel 2, C1 has 1\nrun: hts check",
        ),
    ),
    "recorder channels": (
        ("channels        12 type K", "channels        4 type K"),
        None,
        (f"{_ERROR}", "W23: R1 has 4 channels, and none for T"),
    ),
    "power": (
        ("output         65 kVA", "output         15 kVA"),
        None,
        (f"{_ERROR}3 errors\n", "PS1: the zones of W23 take 21.6 kVA, PS1 gives 15 kVA\n"),
    ),
    "circuits": (
        ("circuits       6", "circuits       1"),
        None,
        (f"{_ERROR}3 errors\n", "PS1: PS1 has 1 circuit for 2 zones of W23\n"),
    ),
    "circuit": (
        ("circuit power  10.8 kW", "circuit power  10.7 kW"),
        None,
        (
            "2 treatments in 1 heat",
            "not planned: W23, W24, W25: single needs 10.8 kW of circuit 1, and a circuit of PS1 "
            "carries 10.7 kW\n",
        ),
    ),
    "cables": (
        ("cable rating   200 A", "cable rating   166 A"),
        None,
        ("W25: single needs 10.8 kW of circuit 1, and a circuit of PS1 carries 10.7 kW\n",),
    ),
    "method": (
        ("circuits  1\n", "circuits  6\n"),
        ("powered by            PS1", "powered by            PS3"),
        (
            "not planned: W23, W24, W25: single is heated by resistance, which takes a transformer "
            "or generator, and PS3 is an induction supply\n",
        ),
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_it_is_told_on_the_command_line(case: str, tmp_path: Path) -> None:
    machine, treatment, told = CASES[case]
    shutil.copytree(SPECS / "library", tmp_path / "library")
    store = tmp_path / "library" / "equipment.hts"
    store.write_text(store.read_text("utf-8").replace(*machine, 1), "utf-8")
    text = (SPECS / "turnaround-many.hts").read_text("utf-8")
    spec = tmp_path / "many.hts"
    spec.write_text(text.replace(*treatment, 1) if treatment else text, "utf-8")
    run = CliRunner().invoke(command, [str(spec), "-o", str(tmp_path / "out")])
    assert run.exit_code == 1
    for words in told:
        assert words in run.output
    # A plan of what can be done is written, and nothing where the text has errors.
    assert (tmp_path / "out").exists() != (_ERROR in told[0])
    if _ERROR not in told[0]:
        assert "not planned: W23" in (tmp_path / "out" / "plan.md").read_text("utf-8")
