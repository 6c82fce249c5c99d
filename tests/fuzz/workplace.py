"""A folder in which the commands are tried, put back as it was after each trial."""

from __future__ import annotations

import os
import re
import shutil
import tempfile
from pathlib import Path

from hts.checking.rules.examples import BASES
from hts.generate import ROOT
from tests.fuzz.run import run

_SPECS = Path(ROOT, "specs")
#: Small: read in milliseconds, and with one of everything between them.
_COPIED = (
    "library", "books", "condensate-own-law.hts", "p22-header.hts", "p91-pipe.hts",
    "branch-unequal.hts", "induction-preheat.hts", "gas-line-nycrr.hts", "hts.toml",
)  # fmt: skip

MAPPING = "columns: {T1: T1, T2: T2}\nunit: degC\ntime: time\n"
EVENTS = (
    "- {at: 2026-10-02 08:03, kind: power lost}\n- {at: 2026-10-02 08:20, kind: power back}\n"
    "- {at: 2026-10-02 10:10:30, kind: note, text: wind}\n"
)
RESULTS = """\
spec 1

results W12 {
  measured hardness      weld 221 HBW, 230 HBW, 228 HBW, 241 HBW at "12:00, 3:00, 6:00, 9:00"
  measured straightness  1.6 mm per 2 m on 2026-12-02
  examined      "MT" accepted after 26 h report "MT-77"
  done          "Spring hanger released" by "Piping engineer" on 2026-12-02
}
"""
SETTINGS = """\
today = "2026-11-20"
ignore = ["D101"]
exclude = ["old/"]
books = ["asme-b31.3 edition 2018"]

[severity]
B101 = "warning"

[paper]
units = "US and SI"
sheet = "Letter"
company = "Tern Island (invented)"

[labels]
columns = 3
rows = 8
copies = 2
width = "60 mm"
gap-across = "2 mm"
"""
#: Specification, log, and time between its rows.
RUNS = (
    ("base-butt.hts", "runs/butt.csv", "1 min"),
    ("p22-header.hts", "runs-p22/p22.csv", "10 min"),
)
READY = "weld,ready\nW12,2026-12-01 06:00\n"


class Workplace:
    """The folder, its files as they were made, and what a trial left of them."""

    def __init__(self) -> None:
        shared = "/dev/shm" if os.path.isdir("/dev/shm") else None
        self._all = tempfile.TemporaryDirectory(prefix="hts-fuzz-", dir=shared)
        self.root = os.path.join(self._all.name, "place")
        os.mkdir(self.root)
        self.cache = os.path.join(self._all.name, "cache")
        os.chdir(self.root)
        for name in ("HTS_CACHE_DIR", "XDG_CACHE_HOME", "XDG_CONFIG_HOME"):
            os.environ[name] = os.path.join(self._all.name, "cache")
        os.environ["HTS_CACHE_KEY"] = "a key of the trials"
        os.environ["HTS_DEBUG"] = "1"
        self._fill()
        self.files = self._read()

    def close(self) -> None:
        os.chdir(ROOT)
        self._all.cleanup()

    def specs(self) -> list[str]:
        return sorted(n for n in self.files if n.endswith(".hts") and "results" not in n)

    def write(self, files: dict[str, bytes]) -> None:
        for name, content in files.items():
            with open(name, "wb") as file:
                file.write(content)

    def changed(self, written: dict[str, bytes]) -> list[str]:
        """The names of files made, changed or gone since `written` was put over the first."""
        now, before = self._read(), {**self.files, **written}
        return sorted(name for name in {*now, *before} if now.get(name) != before.get(name))

    def put_back(self) -> None:
        for name in os.listdir():
            if name != ".git" and not any(n.split("/")[0] == name for n in self.files):
                shutil.rmtree(name) if os.path.isdir(name) else os.remove(name)
        now = self._read()
        for name in set(now) - set(self.files):
            os.remove(name)
        self.write({n: c for n, c in self.files.items() if now.get(n) != c})

    def _read(self) -> dict[str, bytes]:
        found = {}
        for folder, folders, names in os.walk("."):
            folders[:] = [name for name in folders if name != ".git"]
            for name in names:
                path = os.path.relpath(os.path.join(folder, name))
                with open(path, "rb") as file:
                    found[path] = file.read()
        return found

    def _fill(self) -> None:
        os.mkdir(".git")
        for name in _COPIED:
            copy = shutil.copytree if (_SPECS / name).is_dir() else shutil.copy
            copy(_SPECS / name, name)
        for name, text in BASES.items():
            Path(f"base-{name}.hts").write_text(text)
        shutil.copy(_SPECS / "turnaround-list.hts", "list.hts")
        text = Path("list.hts").read_text().replace("turnaround-list.csv", "list.csv")
        head, *rows = (_SPECS / "turnaround-list.csv").read_text().splitlines(keepends=True)
        likes = dict.fromkeys(re.findall(r"each of line-welds like ([\w-]+)", text))
        few = [row for like in likes for row in [r for r in rows if like in r][:2]]
        text = re.sub(r"(?m)^(\s*rows\s+)\d+", rf"\g<1>{len(few)}", text)
        Path("list.hts").write_text(text)
        Path("list.csv").write_text(head + "".join(few))
        Path("settings.toml").write_text(SETTINGS)
        Path("mapping.yaml").write_text(MAPPING)
        Path("events.yaml").write_text(EVENTS)
        Path("ready.csv").write_text(READY)
        Path("p22-header.results.hts").write_text(RESULTS)
        untold = re.sub(r"(?ms)^  history \{.*?^  \}\n", "", BASES["butt"])
        Path("wrong.hts").write_text(untold.replace("25.4 mm", "24.5 mm").replace("NPS", ""))
        for spec, log, every in RUNS:
            os.makedirs(os.path.dirname(log))
            self._made("record", "simulate", spec, "-o", log, "--every", every)
        self._made("check", "wrong.hts", "--baseline", "known.json", "--new-baseline")
        self._made("diff", "base-butt.hts", "wrong.hts", "--approvals", "approvals.json",
                   "--approve", "Owner")  # fmt: skip
        for part in ("1/2", "2/2"):
            self._made("check", ".", "--shard", part, "--report", f"json=part{part[0]}.json")

    def _made(self, *arguments: str) -> None:
        ran = run(arguments)
        if ran.code == 2:
            raise RuntimeError(f"{arguments}: {ran.out}{ran.err}")
