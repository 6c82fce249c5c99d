"""A mark at the head of a packet is taken from inside the repository, small, and only a picture."""

from pathlib import Path

import pytest

from hts.paper.packet import files
from hts.paper.sheet.letterhead import LARGEST, Letterhead, LetterheadError, letterhead
from tests.paper.packet.jobs import ROOT, job_of, pages_of

MARK = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 1"><path d="M0 0 H4 V1 H0 Z"/></svg>'


def taken(root: Path, name: str, data: bytes | str) -> Letterhead:
    path = root / name
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return letterhead("Tern Island Heat", name, str(root), str(root))


def test_company_and_mark_stand_on_the_first_sheet(tmp_path: Path) -> None:
    made = taken(tmp_path, "mark.svg", MARK)
    job = job_of(ROOT / "specs" / "induction-preheat.hts")
    ((_, data),) = files(job, parts=("pipe",), letterhead=made).items()
    first, second, *_ = pages_of(data)
    assert "Tern Island Heat" in first and "Tern Island Heat" not in second
    assert files(job, parts=("pipe",), letterhead=made) == {"packet-W61-pipe.pdf": data}


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
