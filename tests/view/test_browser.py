"""The pages in a real browser: Chromium, with axe-core's rules for WCAG 2.2 A and AA."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from hts.generate import ROOT
from hts.view.export import exported
from hts.view.server import Server
from hts.view.shelf import Shelf
from hts.view.site import Site

CHROMIUM = os.environ.get("HTS_CHROMIUM") or shutil.which("chromium")
#: Where the browser is installed by the run itself, a missing one is a fault of the run.
IN_CI = os.environ.get("CI") == "true"

if not IN_CI:
    if CHROMIUM is None:
        pytest.skip("chromium is not installed: apt-get install chromium", allow_module_level=True)
    pytest.importorskip("playwright", reason="playwright is not installed")
    pytest.importorskip("axe_playwright_python", reason="axe-playwright-python is not installed")

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
SPEC = Path(ROOT, "specs/p22-header.hts")


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    assert CHROMIUM is not None, "chromium is not installed, and .ci/run could not install it"
    with sync_playwright() as started:
        made = started.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield made
        made.close()


@contextmanager
def served(site: Site) -> Iterator[Server]:
    with Server(site) as server:
        threading.Thread(target=server.serve_forever, args=(0.05,), daemon=True).start()
        yield server
        server.shutdown()


def copied(folder: Path) -> Path:
    shutil.copytree(Path(ROOT, "specs/library"), folder / "library")
    path = folder / "a.hts"
    path.write_bytes(SPEC.read_bytes())
    return path


def looked_over(page: Any, *, rules: bool = True) -> None:
    """No rule broken, and nothing to scroll sideways at the width of a phone, or at 400 % of a
    window of 1280 pixels (WCAG 2.2, 1.4.10)."""
    from axe_playwright_python.sync_playwright import Axe

    if rules:
        only = {"runOnly": {"type": "tag", "values": TAGS}, "resultTypes": ["violations"]}
        found = Axe().run(page, options=only).response
        assert [(v["id"], v["nodes"][0]["html"][:200]) for v in found["violations"]] == []
    for width in (320, 390):
        page.set_viewport_size({"width": width, "height": 800})
        assert page.evaluate("document.documentElement.scrollWidth") <= width


def opened(browser: Any, address: str) -> tuple[Any, list[str]]:
    page = browser.new_page(viewport={"width": 1440, "height": 900})
    told: list[str] = []
    page.on("console", lambda message: told.append(message.text))
    page.on("pageerror", lambda error: told.append(str(error)))
    page.goto(address)
    return page, told


def test_a_page_follows_each_save_and_keeps_its_place(browser: Any, tmp_path: Path) -> None:
    path = copied(tmp_path)
    with served(Site(Shelf(str(path)))) as server:
        page, told = opened(browser, server.address)
        looked_over(page)
        # A reason is opened where it is asked for, by keyboard alone.
        why = page.locator("#setpoints a[href^='#why-']").first
        why.focus()
        page.keyboard.press("Enter")
        assert page.locator("dialog[open] .reason").first.is_visible()
        page.keyboard.press("Escape")
        assert page.locator("dialog[open]").count() == 0
        line = page.locator("#text details").first
        line.locator("summary").press("Enter")
        assert line.locator(".reason").first.is_visible()
        # A thermocouple of the drawing leads to its line.
        page.locator("#drawings svg a").first.click()
        assert page.url.rpartition("#")[2].startswith("L")
        page.locator("#cautions").scroll_into_view_if_needed()
        page.evaluate("window.kept = true")
        path.write_text(SPEC.read_text("utf-8").replace("for 2 h at most", "for 1 h at most"))
        page.locator("#findings >> text=hold-too-short").wait_for(timeout=10_000)
        assert "error" in page.locator("[role=status]").first.inner_text()
        assert page.locator("#text details[open]").count() == 1
        assert page.evaluate("window.kept && scrollY > 0")
        # A printed sheet bears the fingerprint of what is shown.
        shown = page.locator("dt:text-is('Fingerprint') + dd").inner_text()
        assert shown in page.evaluate("document.getElementById('foot').textContent")
        # Saved by putting another file in its place, twice within a second.
        for text in ("spec 1\n", SPEC.read_text("utf-8")):
            (tmp_path / "new").write_text(text)
            os.replace(tmp_path / "new", path)
        page.locator("[role=status] >> text=no findings").wait_for(timeout=10_000)
        assert told == []
        page.close()
    # The server is gone: a page that goes on showing figures has to say how old they are.


def test_a_page_says_when_it_is_cut_off(browser: Any, tmp_path: Path) -> None:
    with served(Site(Shelf(str(copied(tmp_path))))) as server:
        page, _ = opened(browser, server.address)
        assert page.locator("#gone").is_hidden()
    page.locator("#gone").wait_for(state="visible", timeout=15_000)
    assert "NOT CONNECTED since" in page.locator("#gone").inner_text()
    page.close()


def test_the_field_is_followed_in_time(
    browser: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("hts.predict.foresee.SAMPLES", 4)
    with served(Site(Shelf(str(copied(tmp_path))))) as server:
        page, told = opened(browser, server.address)
        page.locator("#predicted a").first.click()
        slider = page.locator("[data-moments] input")
        slider.wait_for(timeout=60_000)
        shown = page.locator("[data-moment]:visible")
        assert shown.count() == 1 and page.locator("[data-strip]:visible").count() == 0
        assert "705" in (slider.get_attribute("aria-valuetext") or "")
        slider.press("Home")
        assert shown.count() == 1
        assert (shown.get_attribute("data-moment") or "").startswith("0:00 h")
        looked_over(page)
        assert told == []
        page.close()


def test_the_list(browser: Any, tmp_path: Path) -> None:
    copied(tmp_path)
    shelf = Shelf(str(tmp_path))
    shelf.fill_now()
    with served(Site(shelf)) as server:
        page, told = opened(browser, server.address)
        page.locator("text=HT-0147").wait_for()
        looked_over(page)
        page.locator("input[name=words]").fill("nothing like it")
        page.keyboard.press("Enter")
        page.locator("text=Nothing fits.").wait_for()
        assert told == []
        page.close()


def test_a_run_on_the_desk_and_its_record(browser: Any, tmp_path: Path) -> None:
    pytest.importorskip("polars", reason="records need the extra `record`")
    from click.testing import CliRunner

    from hts.cli.main import cli
    from hts.record.reading import Options
    from hts.record.watch import Growing
    from hts.view.desk_page import Desk
    from hts.view.record_page import JudgedRecord

    log = tmp_path / "run.csv"
    words = ["record", "simulate", str(SPEC), "-o", str(log), "--departure", "over-rate"]
    assert CliRunner().invoke(cli, words).exit_code == 0
    now = tmp_path / "now.csv"
    rows = log.read_bytes().splitlines(keepends=True)
    now.write_bytes(b"".join(rows[:150]))
    options = Options(**dict.fromkeys(Options._fields))
    shelf = Shelf(str(SPEC))
    key = shelf.keys[0]
    with Growing([], str(now)) as growing:
        desk = Desk(shelf, key, growing, options, (None, None), 1.0)
        record = JudgedRecord(shelf, key, [str(log)], options, None, None)
        with served(Site(shelf, {"desk": desk, "record": record})) as server:
            page, told = opened(browser, server.address)
            assert page.locator(".zone .figure").count() == 4
            # ISO 9241-303 asks for letters of 16 minutes of arc at least (from memory): 9.3 mm at
            # two metres, in capitals that are 0.71 of the size, at 96 dots an inch.
            least = 9.3 / 25.4 * 96 / 0.71
            sizes = page.eval_on_selector_all(
                ".figure", "found => found.map(f => parseFloat(getComputedStyle(f).fontSize))"
            )
            assert min(sizes) >= least
            # No figure covers another.
            assert page.evaluate(
                "[...document.querySelectorAll('.figure')].every("
                "f => f.scrollWidth <= f.parentElement.clientWidth + 1)"
            )
            # Whatever is wrong, the figures stand on the first screen.
            assert page.locator("#alarms li").count() > 0
            bottoms = page.eval_on_selector_all(
                ".figure", "found => found.map(f => f.getBoundingClientRect().bottom)"
            )
            assert max(bottoms) <= 900
            first = page.locator(".figure").first.inner_text()
            looked_over(page)
            page.locator("button[data-sound]").click()
            assert page.locator("button[data-sound]").get_attribute("aria-pressed") == "true"
            now.write_bytes(b"".join(rows[:180]))
            page.wait_for_function(
                "was => document.querySelector('.figure').innerText !== was", arg=first,
                timeout=10_000,
            )  # fmt: skip
            assert page.locator("#alarms li").count() > 0
            assert page.locator("button[data-sound]").inner_text() == "Sound is on"
            page.goto(server.address.replace("/desk", "/record"))
            assert page.locator("#verdicts .not-met").count() == 1
            looked_over(page)
            assert told == []
            page.close()


def test_a_copy_needs_no_script(browser: Any, tmp_path: Path) -> None:
    from hts.view.checked import Checked

    copy = tmp_path / "copy.html"
    copy.write_text(exported(Checked(str(SPEC)), "technician"), "utf-8")
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(copy.as_uri())
    page.locator("#text summary").first.click()
    assert page.locator("#text .reason").first.is_visible()
    context.close()
    page, told = opened(browser, copy.as_uri())
    looked_over(page, rules=False)
    assert told == []
    page.close()
