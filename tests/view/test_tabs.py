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
