"""Many tabs: a page is made once for all of them, each with a nonce of its own."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.checking.rules.examples import changed
from hts.view import site as sites
from hts.view.shelf import Shelf
from hts.view.site import Site


def test_a_page_is_made_once_for_all_tabs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.hts"
    path.write_text(changed("butt", ()))
    site = Site(Shelf(str(path)))
    [key] = site.shelf.keys
    made: list[str] = []
    known = sites.spec_sections
    monkeypatch.setattr(sites, "spec_sections", lambda *a: (made.append("once"), known(*a))[1])
    pages = [site.answer(["spec", key], {"joint": j}, f"n{j}").body.decode() for j in "abc"]
    assert made == ["once"]
    for letter, page in zip("abc", pages, strict=True):
        assert f'nonce="n{letter}"' in page and site._blank not in page
        assert page.replace(f'nonce="n{letter}"', 'nonce="na"') == pages[0]
    path.write_text(changed("butt", ()) + "\n")
    site.answer(["spec", key], {}, "n")
    assert made == ["once"] * 2


def test_a_folder_is_looked_through_once_a_second(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    times = [100.0]
    monkeypatch.setattr("hts.view.shelf.time.monotonic", lambda: times[-1])
    (tmp_path / "a.hts").write_text("spec 1\n")
    shelf = Shelf(str(tmp_path))
    assert len(shelf.list(str)) == 1
    (tmp_path / "b.hts").write_text("spec 1\n")
    for later, listed in ((100.5, 1), (100.9, 1), (101.0, 2)):
        times.append(later)
        assert len(shelf.list(str)) == listed
