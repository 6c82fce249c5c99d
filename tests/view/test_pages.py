"""What stands on the pages, and that no text of a specification becomes markup."""

from __future__ import annotations

import os
import re
import subprocess
from pathlib import Path
from types import SimpleNamespace as Stub
from typing import Any

import pytest

from hts.generate import ROOT
from hts.view.checked import Checked
from hts.view.export import exported, file_name
from hts.view.markup import Html, html, tag
from hts.view.picture import picture
from hts.view.shelf import Shelf
from hts.view.site import Site
from hts.view.spec_page import READINGS
from tests.view.reader import Reader

SPEC = Path(ROOT, "specs/p22-header.hts")


def spec_page(site: Site, reading: str = "supervisor") -> str:
    key = site.shelf.keys[0]
    return site.answer(["spec", key], {"reading": reading}, "n").body.decode()


def test_text_is_escaped_and_markup_is_not() -> None:
    assert html("<b>&\"'\x07\u202e", Html("<i>")) == (
        "&lt;b&gt;&amp;&quot;&#x27;&lt;U+0007&gt;&lt;U+202E&gt;<i>"
    )
    assert tag("a", "x", href='"><script>') == '<a href="&quot;&gt;&lt;script&gt;">x</a>'


def test_a_picture_keeps_shapes_alone() -> None:
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1" onload="a()">'
        '<script>a()</script><a href="javascript:a()"><text>no</text></a>'
        "<foreignObject><p/></foreignObject>"
        '<rect onclick="a()" style="x" fill="url(#a)" width="1"/><text x="1">T1</text></svg>'
    )
    drawn = picture(svg, "title", {"T1": "#L3"})
    inside = drawn[drawn.index("<svg") : drawn.index("</svg>")]
    assert re.findall(r"<(\w+)", inside) == ["svg", "rect", "a", "text"]
    assert "javascript" not in drawn and " on" not in inside and "url" not in inside
    assert '<a href="#L3"><text x="1">T1</text></a>' in drawn


@pytest.mark.parametrize("reading", READINGS)
def test_every_reading_has_the_same_parts(reading: str) -> None:
    page = Reader(spec_page(Site(Shelf(str(SPEC))), reading))
    ids = [a["id"] for a in page.elements("section")]
    assert sorted(ids) == sorted(("text", *READINGS[reading]))
    assert "A responsible person approves" in page.text


def test_links_lead_somewhere_and_ids_are_one_each() -> None:
    page = Reader(exported(Checked(str(SPEC)), "inspector"))
    ids = [a["id"] for _, a in page.found if "id" in a]
    assert len(ids) == len(set(ids))
    inner = {h for a in page.elements("a") if (h := a.get("href") or "").startswith("#")}
    assert inner and {one[1:] for one in inner} <= set(ids)


def test_a_value_has_its_reason_and_a_thermocouple_its_line() -> None:
    text = exported(Checked(str(SPEC)), "supervisor")
    lines = SPEC.read_text("utf-8").split("\n")
    row = next(n for n, line in enumerate(lines, 1) if line.strip().startswith("T5 "))
    assert f'<a href="#L{row}"><text' in text
    hold = next(n for n, line in enumerate(lines, 1) if line.strip().startswith("hold 690"))
    here = text[text.index(f'id="L{hold}"') : text.index(f'id="L{hold + 1}"')]
    assert "<summary>" in here and "hold time at least 99 min" in here and "2.5 min/mm * t" in here


def test_a_copy_has_no_script_and_nothing_from_elsewhere_and_is_the_same_twice() -> None:
    text = exported(Checked(str(SPEC)), "supervisor")
    assert text == exported(Checked(str(SPEC)), "supervisor")
    page = Reader(text)
    assert not page.elements("script") and not page.elements("link") and not page.elements("img")
    assert not any(name.startswith("on") for _, a in page.found for name in a)
    assert "hts fingerprint specs/p22-header.hts --expect" in page.text
    assert "url(" not in text and "@import" not in text


HOSTILE = "<script>alert(1)</script><img src=x onerror=alert(1)>"


def test_no_text_of_a_specification_becomes_markup(tmp_path: Path) -> None:
    """Every quoted text and every remark is an attack; names cannot hold such signs."""
    (tmp_path / "library").symlink_to(Path(ROOT, "specs/library"))
    text = SPEC.read_text("utf-8")
    (tmp_path / ".git").mkdir()
    os.unlink(tmp_path / "library")
    (tmp_path / "library").mkdir()
    for file in Path(ROOT, "specs/library").glob("*.hts"):
        (tmp_path / "library" / file.name).write_bytes(file.read_bytes())
    spoiled = re.sub(r'(?<!use )"([^"\n]*)"', rf'"{HOSTILE} \1"', text) + f"\n# {HOSTILE}\n"
    path = tmp_path / "hostile.hts"
    path.write_text(spoiled)
    site = Site(Shelf(str(path)))
    for body in (
        *(spec_page(site, reading) for reading in READINGS),
        exported(Checked(str(path)), "supervisor"),
    ):
        page = Reader(body)
        assert HOSTILE in "".join(page.words)
        assert not page.elements("img")
        assert all(a.get("nonce") == "n" for a in page.elements("script"))
    site.shelf.fill_now()
    listed = Reader(site.answer([], {}, "n").body.decode())
    assert HOSTILE in "".join(listed.words) and not listed.elements("img")
    asked = Reader(site.answer([], {"words": '"><script>'}, "n").body.decode())
    assert len(asked.elements("script")) == 1


@pytest.mark.parametrize("name", ["zone-gap", "brace-missing-at-end", "use-missing-file"])
def test_findings_stand_under_their_lines_and_what_they_hide_is_told(name: str) -> None:
    checked = Checked(str(Path(ROOT, f"specs/broken/{name}.hts")))
    page = Reader(exported(checked, "supervisor"))
    for finding in checked.findings:
        assert page.text.count(" ".join(finding.message.split())) >= 2
    if checked.errors:
        assert "Not made: the text has" in page.text


def test_a_text_that_cannot_be_read_is_a_page(tmp_path: Path) -> None:
    path = tmp_path / "a.hts"
    path.write_text(SPEC.read_text("utf-8").replace('use "library', 'use "none'))
    site = Site(Shelf(str(path)))
    for data in (b"\xff\xfe\x00", b"#" * 6_000_000, None, b"", b"spec 1\n", b"{{{{\x00"):
        if data is None:
            path.unlink()
        else:
            path.write_bytes(data)
        page = Reader(spec_page(site))
        assert "A responsible person approves" in page.text
        if data is None or len(data) > 100 or data[:1] == b"\xff":
            assert "not checked" in page.text


def test_the_last_good_drawing_is_never_taken_for_the_present_one(tmp_path: Path) -> None:
    (tmp_path / ".git").mkdir()
    (tmp_path / "library").mkdir()
    for file in Path(ROOT, "specs/library").glob("*.hts"):
        (tmp_path / "library" / file.name).write_bytes(file.read_bytes())
    path = tmp_path / "a.hts"
    path.write_text(SPEC.read_text("utf-8"))
    site = Site(Shelf(str(path)))
    key = site.shelf.keys[0]
    before = site.shelf.state(key)
    assert site.shelf.state(key) == before
    assert "NOT of the text as it is now" not in spec_page(site)
    path.write_text(SPEC.read_text("utf-8").replace("hold 690 .. 720 degC", "hold 690 .. 720"))
    assert site.shelf.state(key) != before
    page = spec_page(site)
    assert "NOT of the text as it is now" in page and '<figure class="old">' in page


def test_changes_since_the_last_commit_and_what_an_issue_lacks(tmp_path: Path) -> None:
    def git(*words: str) -> None:
        who = ("-c", "user.name=a", "-c", "user.email=a@b.example")
        subprocess.run(["git", "-C", str(tmp_path), *who, *words], check=True, capture_output=True)

    (tmp_path / "library").mkdir()
    for file in Path(ROOT, "specs/library").glob("*.hts"):
        (tmp_path / "library" / file.name).write_bytes(file.read_bytes())
    path = tmp_path / "a.hts"
    text = SPEC.read_text("utf-8").replace("status for construction", "status for review")
    text = text.replace("  signed {", '  open point 1 "Wall to be measured"\n  signed {')
    path.write_text(text)
    git("init", "-q")
    git("add", ".")
    git("commit", "-qm", "first")
    site = Site(Shelf(str(path)))
    first = Reader(spec_page(site)).text
    assert "No change in meaning since the last commit" in first
    assert "open point 1: Wall to be measured" in first
    assert "not signed" not in first
    assert "for construction: point 1 is open, but the document is for construction" in first
    path.write_text(text.replace("for 2 h at most 6 h", "for 3 h at most 6 h"))
    then = Reader(spec_page(site)).text
    assert "re-approve" in then and "for 3 h" not in first
    listed = Shelf(str(tmp_path))
    listed.fill_now()
    rows = {one.name: one.row for one in listed.list(str)}
    assert (
        "re-approve" in rows["a.hts"].changed and "unchanged" in rows["library/joints.hts"].changed
    )


def test_an_open_warning_and_a_missing_signature_hinder_the_issue() -> None:
    page = Reader(exported(Checked(str(Path(ROOT, "specs/broken/zone-gap.hts"))), "supervisor"))
    missing = page.text.partition("issuedStatus now")[2]
    missing = missing.partition("Changes since the last commit")[0]
    assert "no zone heats from 3:00 to 4:00" in missing
    assert "not signed: approved, Owner's engineer" in missing


def test_the_list_tells_whether_the_paper_is_current(tmp_path: Path) -> None:
    import hts
    from hts.job.outputs import files
    from hts.view.papers import CURRENT, NONE, OUTDATED, Papers

    checked = Checked(str(SPEC))
    papers, folders = Papers(), [str(tmp_path / "out")]

    def state() -> str:
        papers.look(folders)
        return papers.state("HT-0147", checked.fingerprint, folders)

    (tmp_path / "out").mkdir()
    assert state() == NONE
    made = files(hts.compile(hts.load(SPEC)))
    (tmp_path / "out/job.json").write_bytes(made["job.json"])
    assert state() == CURRENT
    old = made["job.json"].replace(checked.fingerprint.encode(), b"0000-0000-0000")
    (tmp_path / "out/job.json").write_bytes(old)
    assert state() == OUTDATED
    (tmp_path / "out/job.json").write_bytes(b"[")
    assert state() == NONE


def test_of_very_many_joints_one_is_shown_and_the_page_says_so() -> None:
    checked = Checked(str(Path(ROOT, "specs/turnaround-list.hts")))
    last = checked.joints[-1]
    text = exported(checked, "supervisor", last)
    assert f"Joint {last} alone, of {len(checked.joints)}." in text
    assert len(text) < 1_000_000
    addresses = re.findall(r'class="asks" id="why-([a-z0-9]+)-', text)
    assert addresses and set(addresses) == {last.lower()}


def test_a_name_for_each_copy() -> None:
    """Number and revision; without them the name of the text; never one that is taken, whether in
    capitals or not; nothing that leads elsewhere."""
    taken: set[str] = set()

    def named(path: str, number: str = "", revision: str = "") -> str:
        job = Stub(number=number, revision=Stub(name=revision) if revision else None)
        checked: Any = Stub(path=path, case=Stub(spec=Stub(file=Stub(job=job))))
        return file_name(checked, taken)

    assert named("a/x.hts", "HT-0147", "B") == "HT-0147-B.html"
    assert named("a/y.hts", "ht-0147", "b") == "ht-0147-b-2.html"
    assert named("a/z.hts", "HT-0147", "B") == "HT-0147-B-3.html"
    assert named("a/z.hts", "HT-0148") == "HT-0148.html"
    assert named("a\\W 12 (final).hts") == "W-12-final.html"
    assert named("a/z.hts", "../../.x", "") == "x.html"
    assert named("a/?.hts") == "copy.html"
    assert named("a/z.hts", "N" * 100) == f"{'N' * 80}.html"
    unread: Any = Stub(path="a/b.hts", case=None)
    assert file_name(unread, taken) == "b.html"
    no_job: Any = Stub(path="a/b.hts", case=Stub(spec=Stub(file=Stub(job=None))))
    assert file_name(no_job, taken) == "b-2.html"
