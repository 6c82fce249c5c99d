"""The text of the packets against `job.json`: what is compiled is what is on paper."""

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from hts.job.compiler import Job
from hts.job.outputs import files as tables
from hts.paper.packet import files
from tests.jobs import job_at
from tests.paper.packet.jobs import GOOD, ROOT, bare, of_text, pages_of, texts_of


@cache
def made(path: Path) -> tuple[Job, dict[str, str]]:
    """The job, and the whole text of each of its packets."""
    return job_at(path), {name: bare("".join(pages)) for name, pages in texts_of(path).items()}


def everything(path: Path) -> tuple[dict[str, Any], str]:
    job, packets = made(path)
    return json.loads(tables(job)["job.json"]), "".join(packets.values())


good = pytest.mark.parametrize("path", GOOD, ids=lambda path: path.stem)


@good
def test_every_tag_has_its_place_and_its_channels(path: Path) -> None:
    document, text = everything(path)
    for joint in document["joints"]:
        for treatment in joint["treatments"]:
            for tag in treatment["tags"]:
                assert bare(tag["tag"]) in text
                if tag["clock"] is None:
                    continue
                # Tag, R where required, duty and clock; then tape, place, side and channels.
                start = rf"{re.escape(tag['tag'])}R?{re.escape(_duty(tag))}{tag['clock']}"
                assert re.search(start, text), tag["tag"]
                recorder = tag["recorder"]
                run = joint["treatments"][-1]
                if recorder["instrument"] is not None and treatment is run and tag["connected"]:
                    # The first channel of the recorder after the place: that of this row.
                    near = rf"{start}.{{,160}}?{re.escape(recorder['instrument'])}-(\d+)"
                    channels = re.findall(near, text)
                    assert any(one.startswith(str(recorder["channel"])) for one in channels)


def _duty(tag: dict[str, Any]) -> str:
    if tag["spare_of"]:
        return f"spareof{tag['spare_of']}"
    place = tag["place"] or (f"zone{tag['zone']}" if tag["zone"] else "")
    return bare(f"{tag['duty']}{place}")


@good
def test_every_setpoint_and_limit(path: Path) -> None:
    document, text = everything(path)
    for joint in document["joints"]:
        for width in joint["widths"]:
            assert bare(width["each_side"]["shown"]) in text
        for treatment in joint["treatments"]:
            for step in treatment["program"]:
                for key in ("set_from", "rate", "rate_limit", "alarm_above", "alarm_below"):
                    # Nothing is keyed in for a preheat that is kept by hand.
                    if step[key] is not None and not treatment["by_hand"]:
                        assert _number(step[key]["shown"]) in text, (step["step"], key)
                if step["window"] is not None:
                    low, high = step["window"]["from"]["shown"], step["window"]["to"]["shown"]
                    assert bare(f"{low} to {high}") in text
            for one in treatment["derived"]:
                if isinstance(one["value"], dict) and one["value"]["unit"] != "s":
                    assert bare(one["value"]["shown"]) in text


def _number(shown: str) -> str:
    """`705 °C (1301 °F)` as it stands below a heading with the units: `705(1301)`."""
    return re.sub(r"[°CFKh/mmin]", "", bare(shown))


@good
def test_every_reason_with_citation_formula_and_basis(path: Path) -> None:
    document, text = everything(path)
    count = 0
    for why in _reasons(document["joints"]):
        for key in ("citation", "formula", "numbers"):
            # All arcs of one diameter are worked out in one line.
            if key in why and not (key == "numbers" and why.get("formula", "").startswith("π")):
                assert bare(why[key]) in text, why
                count += 1
    assert count > 30


def _reasons(found: Any) -> list[dict[str, str]]:
    """Every reason in the document, however deep."""
    if isinstance(found, list):
        return [why for one in found for why in _reasons(one)]
    if not isinstance(found, dict):
        return []
    if "basis" in found and "confidence" in found:
        return [found]
    return [why for one in found.values() for why in _reasons(one)]


@good
def test_the_words_of_the_job(path: Path) -> None:
    job, packets = made(path)
    for sheet in job.joints:
        text = next(t for name, t in packets.items() if sheet.joint.name in name)
        joint = sheet.joint
        for work in (*joint.before, *joint.during, *joint.after):
            points = [*work.hold_points, *work.witness_points, *work.review_points]
            said = [*work.cautions, *(one.text for one in (*work.checks, *points))]
            said += [one.method for one in work.examinations]
            assert all(bare(words) in text for words in said)
        for after in joint.after:
            for limit in after.hardness:
                rows = text.count(bare(f"{limit.zone}"))
                assert rows >= (limit.count or 1)
    job_entry = job.spec.file.job
    assert job_entry is not None and job_entry.signed is not None
    for text in packets.values():
        for line in job_entry.history.lines if job_entry.history else ():
            assert bare(f"{line.name}{line.on}{line.change}") in text
        for one in job_entry.signed.approved:
            assert bare(f"approved{one.role}") in text


@good
def test_conductor_colours(path: Path) -> None:
    """IEC 60584-3:2007 table 1: K green, N pink, the negative always white; ASTM E230: K yellow,
    the negative red."""
    _, text = everything(path)
    known = {
        ("K", "IEC 60584-3"): "greenwhitegreenIEC60584-3",
        ("N", "IEC 60584-3"): "pinkwhitepinkIEC60584-3",
        ("K", "ASTM E230"): "yellowred",
    }
    for sheet in job_at(path).joints:
        if sheet.wire is not None:
            assert known[sheet.wire.type, sheet.wire.standard] in text


def test_marks_are_explained_on_their_page() -> None:
    seen = set()
    for pages in texts_of(ROOT / "specs" / "p22-header.hts").values():
        for page in pages:
            for sign, meaning in (("†", "recalled from memory"), ("‡", "common practice or an")):
                marked = sign in page.replace(f"{sign} {meaning}", "")
                assert marked == (meaning in page)
                seen.add((sign, marked))
    assert ("†", True) in seen and ("‡", True) in seen and ("†", False) in seen


def test_waivers_stand_with_reason_and_end() -> None:
    text = (ROOT / "specs" / "carbon-steel-butt.hts").read_text("utf-8")
    waiver = """
waive missing-spare on W07/thermocouples/T5 {
  reason  "Edge monitor (invented)"
  by      "Welding engineer"
  until   2027-01-31
}
"""
    job = of_text(text + waiver, str(ROOT / "specs"))
    printed = bare("".join(pages_of(files(job)["packet-W07.pdf"])))
    wanted = "missing-spareW07/thermocouples/T5Edgemonitor(invented)Weldingengineer2027-01-31"
    assert wanted in printed
    _, packets = made(ROOT / "specs" / "p22-header.hts")
    assert "Waiversinforce:none." in packets["packet-W12.pdf"]


def test_a_governing_thickness_from_memory_is_marked() -> None:
    """The row of ASME B31.3 it comes from is recalled, not seen."""
    (page,) = (
        page
        for page in texts_of(ROOT / "specs" / "p22-header.hts")["packet-W12.pdf"]
        if "Governing thickness" in page and "Joint data" in page and "Contents" not in page
    )
    assert re.search(r"39\.6\smm \(1\.559\sin\)†", page)
