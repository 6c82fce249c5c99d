"""A font of a team is a plain file inside the repository, and what is not is refused in words."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from hts.base import fonts
from hts.base.fonts import Font, FontError, given_font, letters_of

SHIPPED = Path(fonts.__file__).parents[1] / "paper" / "sheet" / "fonts"


@pytest.mark.parametrize("start", [b"\0\1\0\0", b"OTTO", b"true"])
def test_a_font_is_taken_by_how_it_begins(tmp_path: Path, start: bytes) -> None:
    (tmp_path / "deep").mkdir()
    file = tmp_path / "deep" / "own.ttf"
    file.write_bytes(start)
    found = given_font("own.ttf", str(tmp_path / "deep"), str(tmp_path))
    assert found.path == str(file.resolve())
    assert given_font("deep/../deep/own.ttf", str(tmp_path), str(tmp_path)) == found
    assert len(found.content) == 16
    file.write_bytes(start + b"\0")
    other = given_font("own.ttf", str(tmp_path / "deep"), str(tmp_path))
    assert other.content != found.content


def test_what_is_not_taken(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fonts, "LARGEST", 2_000_000)
    inside = tmp_path / "inside"
    inside.mkdir()
    (tmp_path / "beside.ttf").write_bytes(b"OTTO")
    (tmp_path / "inside-too.ttf").write_bytes(b"OTTO")
    (inside / "text.ttf").write_bytes(b"not OTTO")
    (inside / "many.ttc").write_bytes(b"ttcf")
    (inside / "whole.otf").write_bytes(b"OTTO" + bytes(2_000_000 - 4))
    (inside / "large.otf").write_bytes(b"OTTO" + bytes(2_000_000 - 3))
    (inside / "folder").mkdir()
    os.symlink(tmp_path / "beside.ttf", inside / "link.ttf")
    given_font("whole.otf", str(inside), str(inside))
    outside = ("lies outside the repository", "put the font inside it")
    lost = ("is not a file", "the path is seen from the folder of this setting")
    none = ("is not a font", "use a .ttf or an .otf file of one font")
    large = ("is larger than 2 MB", "use a font of fewer letters")
    for font, (message, help) in {
        "../beside.ttf": outside, "link.ttf": outside, str(inside / "whole.otf"): outside,
        "../inside-too.ttf": outside, "nowhere.ttf": lost, "folder": lost, "text.ttf": none,
        "many.ttc": none, "large.otf": large,
    }.items():  # fmt: skip
        with pytest.raises(FontError) as caught:
            given_font(font, str(inside), str(inside))
        assert (str(caught.value), caught.value.help) == (f"{font} {message}", help)


def test_the_letters_of_a_font(tmp_path: Path) -> None:
    pytest.importorskip("fontTools", reason="the extra `packet` is not installed")
    assert letters_of(None) == frozenset()
    shipped = sorted(SHIPPED.glob("*.ttf"))[0]
    letters = letters_of(Font(str(shipped), "shipped"))
    assert set(map(ord, "Aaz0°µ")) <= letters
    assert ord("溶") not in letters
    damaged = tmp_path / "damaged.ttf"
    damaged.write_bytes(shipped.read_bytes()[:400])
    assert letters_of(Font(str(damaged), "damaged")) == frozenset()
