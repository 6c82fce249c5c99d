"""A mark at the head of a paper is taken from inside the repository, small, and only a picture; and
packages of an extra that is not installed."""

from pathlib import Path

import pytest

from hts.paper.sheet.letterhead import LARGEST, Letterhead, LetterheadError, letterhead
from hts.paper.sheet.needed import MissingPackage, needed

MARK = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 1"><path d="M0 0 H4 V1 H0 Z"/></svg>'


def taken(root: Path, name: str, data: bytes | str) -> Letterhead:
    path = root / name
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return letterhead("Tern Island Heat", name, str(root), str(root))


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("m.svg", MARK.replace("<path", "<script>1</script><path"), "more than a drawing"),
        ("m.svg", MARK.replace("<path", '<image href="x.png"/><path'), "more than a drawing"),
        ("m.svg", MARK.replace("<path", '<path onload="x()"'), "more than a drawing"),
        ("m.svg", "<!DOCTYPE svg [<!ENTITY a 'b'>]>" + MARK, "more than a drawing"),
        ("m.svg", "no picture", "not an SVG"),
        ("m.png", "no picture", "not a PNG"),
        ("m.gif", "GIF89a", "use an .svg or a .png"),
        ("m.png", b"\x89PNG\r\n\x1a\n" + b"0" * LARGEST, "larger than"),
    ],
)
def test_what_is_not_a_small_picture_is_refused(
    tmp_path: Path, name: str, data: bytes | str, says: str
) -> None:
    with pytest.raises(LetterheadError, match=says):
        taken(tmp_path, name, data)


def test_nothing_outside_the_repository(tmp_path: Path) -> None:
    root = tmp_path / "repository"
    root.mkdir()
    outside = tmp_path / "mark.svg"
    outside.write_text(MARK)
    (root / "link.svg").symlink_to(outside)
    for logo in ("../mark.svg", str(outside), "link.svg"):
        with pytest.raises(LetterheadError, match="outside the repository"):
            letterhead("", logo, str(root), str(root))


def test_a_mark_as_large_as_it_may_be(tmp_path: Path) -> None:
    data = b"\x89PNG\r\n\x1a\n".ljust(LARGEST, b"0")
    assert taken(tmp_path, "m.PNG", data) == ("Tern Island Heat", data, "png")
    assert taken(tmp_path, "m.svg", MARK).kind == "svg"
    # Something inside the picture itself may be named.
    assert taken(tmp_path, "m.svg", MARK.replace("<path", '<path fill="url(#a)"')).mark
    assert letterhead("Tern Island Heat", "", "/nowhere", "/nowhere") == Letterhead(
        "Tern Island Heat"
    )
    (tmp_path / "jobs").mkdir()
    assert letterhead("", "../m.svg", str(tmp_path / "jobs"), str(tmp_path)).kind == "svg"
    with pytest.raises(LetterheadError, match=r"n.svg is not a file in"):
        letterhead("", "n.svg", str(tmp_path), str(tmp_path))


def test_a_package_that_is_not_installed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Said of the package itself; what another lacks is a fault of that one."""
    assert needed("json.decoder", "paper").JSONDecodeError is not None
    for package in ("nobody_has_this", "nobody_has_this.part"):
        with pytest.raises(MissingPackage) as raised:
            needed(package, "paper")
        words = 'nobody_has_this is not installed; run: pip install "hts[paper]"'
        assert str(raised.value) == words
    (tmp_path / "lacks_another.py").write_text("import nobody_has_this")
    monkeypatch.syspath_prepend(str(tmp_path))
    with pytest.raises(ModuleNotFoundError, match="nobody_has_this"):
        needed("lacks_another", "paper")
