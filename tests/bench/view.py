"""Times the pages of `hts view` in a browser: `python -m tests.bench.view`.

Save to shown of the header in Chromium with one tab and with twelve, processor time while nothing
happens, the list of many texts at the first start and from the cache, and what pages weigh. Goals
beside the figures; wall time, so that a busy machine bears on it.
"""

from __future__ import annotations

import argparse
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from hts.view.checked import Checked
from hts.view.export import exported

ROOT = Path(__file__).parents[2]
SPEC = ROOT / "specs" / "p22-header.hts"
ROUNDS = 12
#: What is written and shown: another purpose, in the head of the text.
_WAS = "Stress relief of the closing weld"

_SHOWN = "said => document.querySelector('#text').textContent.includes(said)"


@contextmanager
def served(path: Path) -> Iterator[tuple[str, int]]:
    """Address and process number of `hts view` on its own."""
    command = [sys.executable, "-m", "hts", "view", str(path), "--no-open"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=ROOT) as process:
        assert process.stdout is not None
        yield process.stdout.readline().strip(), process.pid
        process.kill()


def busy(pid: int) -> float:
    """Processor seconds of a process (Linux)."""
    fields = Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def save_to_shown(browser: Any, folder: Path, tabs: int) -> None:
    path = folder / "header.hts"
    text = SPEC.read_text("utf-8")
    path.write_text(text)
    with served(path) as (address, pid):
        context = browser.new_context(viewport={"width": 1440, "height": 900})
        pages = [context.new_page() for _ in range(tabs)]
        for page in pages:
            page.goto(address)
        time.sleep(1)
        waits, spent = [], busy(pid)
        for number in range(ROUNDS if tabs == 1 else 4):
            said = f"Purpose number {number}"
            begun = time.perf_counter()
            path.write_text(text.replace(_WAS, said))
            for page in pages:
                # A locator looks every half second only.
                page.wait_for_function(_SHOWN, arg=said, polling=10, timeout=60_000)
            waits.append(time.perf_counter() - begun)
            time.sleep(0.3)
        spent = (busy(pid) - spent) / len(waits)
        print(
            f"save to shown, {tabs:2} tabs: median {statistics.median(waits):.2f} s, worst "
            f"{max(waits):.2f}; processor of the server {spent:.2f} s a save   goal 0.8 s, one tab"
        )
        if tabs == 1:
            time.sleep(1)
            before, begun = busy(pid), time.perf_counter()
            time.sleep(15)
            share = (busy(pid) - before) / (time.perf_counter() - begun)
            print(f"nothing happens, one tab looked at: {100 * share:.1f} % of a core   goal 1 %")
        context.close()


def list_of_many(folder: Path, count: int) -> None:
    """The list by the functions the server answers with, each start in a process of its own."""
    for number in range(count):
        text = SPEC.read_text("utf-8").replace("HT-0147", f"HT-{number:04}")
        (folder / f"w{number:04}.hts").write_text(text)
    program = (
        "import sys, time\n"
        "from hts.view.shelf import Shelf\n"
        "from hts.view.site import Site\n"
        "begun = time.perf_counter()\n"
        f"site = Site(Shelf({str(folder)!r}))\n"
        "page = site.answer([''], {}, 'n').body\n"
        "took = time.perf_counter() - begun\n"
        "print(f'{took:.2f} s, {page.count(b\"no findings\")} with their row', flush=True)\n"
        "begun = time.perf_counter()\n"
        "site.shelf.fill_now()\n"
        "print(f'all rows {time.perf_counter() - begun:.1f} s')\n"
    )
    place = {**os.environ, "HTS_CACHE_DIR": str(folder.parent / "cache")}
    for name, goal in (("first start", 2.0), ("from the cache", 0.3)):
        made = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True,
                              env=place, cwd=ROOT)  # fmt: skip
        told = "; ".join(made.stdout.splitlines()) or made.stderr
        print(f"list of {count} texts, {name}: {told}   goal {goal:g} s for the list")


def main() -> None:
    from playwright.sync_api import sync_playwright

    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--texts", type=int, default=500, help="texts of the list")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as made, sync_playwright() as started:
        folder = Path(made, "work")
        shutil.copytree(ROOT / "specs" / "library", folder / "library")
        (folder / ".git").mkdir()
        browser = started.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox"]
        )
        for tabs in (1, 12):
            save_to_shown(browser, folder, tabs)
        browser.close()
        list_of_many(folder, asked.texts)
    for reading in ("technician", "supervisor"):
        weight = len(exported(Checked(str(SPEC)), reading).encode())
        print(f"copy for the {reading}: {weight / 1000:.0f} kB")


if __name__ == "__main__":
    main()
