"""A run that is killed leaves each file as it was or as it was to be, and the next run tidies up.

`compile` and `record check -o`, which write several files, are in tests/job/outputs/test_write.py.
"""

from __future__ import annotations

import os
import signal
from collections.abc import Callable
from pathlib import Path

import pytest

from hts.checking.rules.examples import BUTT
from tests.fuzz.run import run

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a process of its own")
UNTOLD = BUTT.replace('    A on 2026-10-02 "First issue"\n', "")
KNOWN = ("check", "a.hts", "--baseline", "known.json")
DIFF = ("diff", "old.hts", "a.hts", "--approvals", "seen.json", "--approve", "Owner")

#: The command, the file it writes, and what comes before it.
CASES: dict[str, tuple[tuple[str, ...], str, tuple[str, ...]]] = {
    "a new baseline": ((*KNOWN, "--new-baseline"), "known.json", ()),
    "a baseline brought up to date": ((*KNOWN, "--write-baseline"), "known.json",
                                      (*KNOWN, "--new-baseline")),
    "a report": (("check", "a.hts", "--report", "json=seen.json"), "seen.json", ()),
    "approvals": (DIFF, "seen.json", ()),
    "a layout": (("fmt", "a.hts"), "a.hts", ()),
    "layout mended": (("check", "--fix", "c.hts"), "c.hts", ()),
}  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    place = tmp_path / "place"
    (place / ".git").mkdir(parents=True)
    monkeypatch.chdir(place)
    monkeypatch.setenv("HTS_CACHE_DIR", str(tmp_path / "cache"))
    for name, text in (("a", UNTOLD + "\n\n\n"), ("b", UNTOLD.replace("W12", "W13")),
                       ("old", BUTT.replace("25.4", "26.4")),
                       ("c", BUTT.replace("joint W12 {", "joint W12\n{"))):  # fmt: skip
        (place / f"{name}.hts").write_text(text)
    return place


#: What a step of writing is made of.
STEPS = ("replace", "unlink", "link", "chmod")


def killed(arguments: tuple[str, ...], number: int, sign: int, of: tuple[str, ...] = STEPS) -> bool:
    """Runs a command in a process that a signal ends at the so manieth step of its writing;
    whether it came to that."""
    child = os.fork()
    if not child:
        try:
            steps = 0

            def ending(real: Callable[..., object]) -> Callable[..., object]:
                def step(*places: object, **more: object) -> object:
                    nonlocal steps
                    steps += 1
                    if steps == number:
                        os.kill(os.getpid(), sign)
                    return real(*places, **more)

                return step

            for name in of:
                setattr(os, name, ending(getattr(os, name)))
            run(arguments)
        finally:
            os._exit(0 if steps < number else 9)
    _, status = os.waitpid(child, 0)
    return os.waitstatus_to_exitcode(status) != 0


@pytest.mark.parametrize("sign", [signal.SIGKILL, signal.SIGTERM, signal.SIGINT])
@pytest.mark.parametrize("case", CASES)
def test_old_or_new_and_nothing_left(folder: Path, case: str, sign: int) -> None:
    arguments, name, first = CASES[case]
    if first:
        run(first)
        (folder / "a.hts").write_text(BUTT)
    path = folder / name
    before = path.read_bytes() if path.exists() else None
    names = set(os.listdir()) | {name}
    run(arguments)
    after = path.read_bytes()
    assert after != before
    for number in range(1, 12):
        if before is None:
            path.unlink(missing_ok=True)
        else:
            path.write_bytes(before)
        came = killed(arguments, number, sign)
        found = path.read_bytes() if path.exists() else None
        assert found in (before, after)
        if before is None:
            path.unlink(missing_ok=True)
        else:
            path.write_bytes(before)
        run(arguments)
        assert path.read_bytes() == after
        assert set(os.listdir()) == names
        if not came:
            break
    assert number > 1


@pytest.mark.parametrize("command", ["compile", "plan"])
def test_half_of_the_papers_moved_in_is_no_work_of_others(folder: Path, command: str) -> None:
    """The next run finishes what was begun, and asks for no `--replace`."""
    assert run((command, "a.hts", "-o", "out"))[0] == 0
    before = {path.name: path.read_bytes() for path in (folder / "out").iterdir()}
    text = (folder / "a.hts").read_text().replace("HT-0001", "HT-0002")
    (folder / "a.hts").write_text(text)
    # The first move is that of the journal.
    assert killed((command, "a.hts", "-o", "out"), 4, signal.SIGKILL, of=("replace",))
    code, _, err, *_ = run((command, "a.hts", "-o", "out"))
    assert (code, "by hand" in err) == (0, False), err
    after = {path.name: path.read_bytes() for path in (folder / "out").iterdir()}
    assert after.keys() == before.keys() and after != before
    (folder / "out" / min(name for name in after if name.endswith(".csv"))).write_text("by hand")
    assert run((command, "a.hts", "-o", "out"))[0] == 2
