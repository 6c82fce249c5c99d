"""Names that stand for nothing or for two things, and files that cannot be used: what is told."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.base.findings import ordered
from hts.base.text import Source
from hts.language.model import Loader, Spec
from hts.language.model.resolve import MOST_LIKE
from tests.language.vocabulary.read import Told, told
from tests.rows import each_row

HEAD = """spec 1
material m {
  p-number 1
}
recorder R1 {
  channels 12 type K range 0 .. 1200 degC
  interval 60 s
  error +/- 1.5 degC
}
joint W1 {
  kind girth butt
  between m and m
  heating by resistance {
    soak band by rule
    heated band by rule
    gradient band by rule
    zone top from 9:00 to 3:00
    zone bottom from 3:00 to 9:00
  }
  thermocouples type K class 1 {
    colours IEC 60584-3
    channel offset 20
    T1 controls top at 12:00 on weld channel 1 control channel 3
    T2 controls bottom at 6:00 on weld channel 2
    T1S spare for T1 at 12:10 on weld channel 7
    T3 monitors weld at 3:00 on weld
  }
}
"""


def spec(text: str, folder: Path | str = "/") -> tuple[Spec, list[Told]]:
    path = str(Path(folder) / "text.hts") if folder != "/" else None
    made = Spec(Source(text, "text.hts", path), Loader(str(folder)))
    return made, [told(finding) for finding in ordered(made.findings)]


@each_row(
    ("old", "new", "message", "at", "help"),
    [
        ("between m and m", "between m and n", "no material is named 'n'", "n",
         "did you mean m?"),
        ("between m and m", "between m and other-metal", "no material is named 'other-metal'",
         "other-metal", "declared are: m"),
        ("between m and m", "between m and mm", "no material is named 'mm'", "mm",
         "did you mean m?"),
        ("controls bottom", "controls botom", "no zone is named 'botom'", "botom",
         "did you mean bottom?"),
        ("spare for T1 ", "spare for T8 ", "no thermocouple is named 'T8'", "T8", None),
        ("recorder R1", "material m {\n  p-number 3\n}\nrecorder R1",
         "there are two materials named m", "m", "give each a name of its own"),
        ("zone bottom from 3:00 to 9:00", "zone top from 3:00 to 9:00",
         "there are two zones named top", "top", "give each a name of its own"),
        ("T3 monitors", "T1 monitors", "there are two thermocouples named T1", "T1",
         "give each a name of its own"),
        ("joint W1 {", "joint W1 {\n  welding \"WPS-1\" filler f", "no filler is named 'f'", "f",
         "declare it: filler f { … }"),
        ("joint W1 {", "joint W0 like W1\njoint W1 like W0 {",
         "joint W0 is like itself, by way of W1", "W1", "begin one of the joints without `like`"),
        ("joint W1 {", "joint W1 like W1 {", "joint W1 is like itself, by way of W1", "W1",
         "begin one of the joints without `like`"),
        ("kind girth butt", 'kind girth butt\n  nearby "valve" 1 m upstream monitored by T9',
         "no thermocouple is named 'T9'", "T9", None),
    ],
)  # fmt: skip
def test_a_name_that_stands_for_nothing_or_for_two(
    old: str, new: str, message: str, at: str, help: str | None
) -> None:
    assert spec(HEAD)[1] == []
    made, tellings = spec(HEAD.replace(old, new, 1))
    found = [t for t in tellings if t.message == message]
    assert [(t.at, t.help if help is not None else None) for t in found] == [(at, help)], tellings
    if "zone is" in message or "'T8'" in message or "itself" in message:
        assert not all(joint.sound for joint in made.joints.values())


@each_row(
    ("block", "message", "at"),
    [
        ("cycle c for W9 {\n}\n", "no joint is named 'W9'", "W9"),
        ("cycle c for W1 {\n  recorded by R9\n}\n", "no recorder is named 'R9'", "R9"),
        ("cycle c for W1 {\n  controlled by C1\n}\n", "no controller is named 'C1'", "C1"),
        ("cycle c for W1 {\n  powered by PS1\n}\n", "no power source is named 'PS1'", "PS1"),
        ("cycle c for W1 {\n}\ncycle c for W1 {\n}\n", "joint W1 has two cs", None),
        ("bake W1 {\n}\nbake W1 {\n}\n", "joint W1 has two bakes", None),
        ("preheat W1 {\n}\npreheat W1 {\n}\n", "joint W1 has two preheats", None),
        ("preheat W1 {\n  recorded by R9\n}\n", "no recorder is named 'R9'", "R9"),
    ],
)
def test_treatments(block: str, message: str, at: str | None) -> None:
    _, tellings = spec(HEAD + block)
    found = [t for t in tellings if t.message == message]
    assert len(found) == 1, tellings
    assert at is None or found[0].at == at
    if at is None:
        assert found[0].help == "keep one of them"


def test_who_works_on_what() -> None:
    text = HEAD + (
        "joint W2 like W1\n"
        "preheat W1, W2 {\n}\nbake W2 {\n  recorded by R1\n}\n"
        "cycle a for W1 {\n  recorded by R1\n}\ncycle b for W1, W2 {\n}\n"
    )
    made, _ = spec(text)
    first, second = made.joints["W1"], made.joints["W2"]
    assert [joint.name for joint in made.own] == ["W1", "W2"]
    assert [one.name for one in first.cycles] == ["a", "b"]
    assert [one.name for one in second.cycles] == ["b"]
    assert [one.name for one in second.bakes] == ["bake"] and first.bakes == []
    assert first.preheat is second.preheat is not None
    assert [one.address for one in (*first.cycles, *second.bakes)] == ["W1/a", "W1/b", "W2/bake"]
    assert second.bakes[0].is_bake and not first.cycles[0].is_bake
    assert first.cycles[0].cycle is first.cycles[0].entry and second.bakes[0].cycle is None
    assert first.cycles[0].recorder is not None and first.cycles[1].recorder is None
    assert repr(made).startswith("<Spec text.hts: W1, W2")


def test_thermocouples_of_a_joint() -> None:
    joint = spec(HEAD)[0].joints["W1"]
    told_ = [
        (tc.tag, tc.duty, tc.zone and tc.zone.name, tc.spare_of and tc.spare_of.tag, tc.channel,
         tc.control_channel) for tc in joint.thermocouples
    ]  # fmt: skip
    # Channels are counted on from 20; a spare is of the zone whose thermocouple it stands for.
    assert told_ == [
        ("T1", "controls", "top", None, 21, 23),
        ("T2", "controls", "bottom", None, 22, None),
        ("T1S", "spare", "top", "T1", 27, None),
        ("T3", "monitors", None, None, None, None),
    ]
    assert [[tc.tag for tc in zone.controls] for zone in joint.zones] == [["T1"], ["T2"]]
    assert [tc.surface for tc in joint.thermocouples] == ["outside"] * 4
    assert joint.thermocouples[0].address == "W1/thermocouples/T1"
    assert joint.zones[1].address == "W1/heating/bottom"
    both = HEAD.replace("T3 monitors weld", "T3 controls top monitors weld")
    assert spec(both)[0].joints["W1"].thermocouples[3].duty == ""


def chain(count: int) -> str:
    return HEAD + "".join(f"joint L{n} like {f'L{n - 1}' if n else 'W1'}\n" for n in range(count))


def test_a_joint_goes_back_to_another_by_so_many_at_most() -> None:
    made, tellings = spec(chain(MOST_LIKE))
    assert tellings == []
    assert made.joints[f"L{MOST_LIKE - 1}"].entry.kind == "girth butt"
    _, tellings = spec(chain(MOST_LIKE + 1))
    assert [(t.message, t.at) for t in tellings] == [
        ("joint L20 is like a joint that is like another, more than 20 times", "L19")
    ]
    assert tellings[0].help == "make it like the joint that they all go back to"


@pytest.mark.parametrize(
    ("use", "message", "help"),
    [
        ('use "/etc/x.hts"', "'/etc/x.hts' is not a relative path with forward slashes",
         "write, for example, use "),
        ('use "a\\\\b.hts"', None, ""),
        ('use "c:b.hts"', "'c:b.hts' is not a relative path with forward slashes",
         "write, for example, use "),
        ('use "../x.hts"', "'../x.hts' leads outside the repository",
         "keep shared files inside the repository"),
        ('use "gone.hts"', "there is no file 'gone.hts'",
         "the path is relative to the folder of this file"),
        ('use "a.hts"', None, ""),
        ('use "text.hts"', "'text.hts' is already being read: files that use each other",
         "remove one of the `use` lines"),
        ('use "back.hts"', "'text.hts' is already being read: files that use each other",
         "remove one of the `use` lines"),
        ('use "bad.hts"', "'bad.hts': ", ""),
    ],
)  # fmt: skip
def test_a_file_that_cannot_be_used(
    tmp_path: Path, use: str, message: str | None, help: str
) -> None:
    (tmp_path / "a.hts").write_text("spec 1\nmaterial lib {\n  p-number 4\n}\n", encoding="utf-8")
    (tmp_path / "back.hts").write_text('spec 1\nuse "text.hts"\n', encoding="utf-8")
    (tmp_path / "bad.hts").write_bytes(b"spec 1\n\xff\xfe\n")
    text = HEAD.replace("spec 1\n", f"spec 1\n{use}\n")
    (tmp_path / "text.hts").write_text(text, encoding="utf-8")
    made, tellings = spec(text, tmp_path)
    if message is None:
        assert all("is already" not in t.message for t in tellings)
        return
    found = [t for t in tellings if t.message.startswith(message)]
    assert len(found) == 1, tellings
    assert found[0].help.startswith(help)
    assert made.joints["W1"].entry.kind == "girth butt"


def test_a_name_that_a_file_nobody_could_read_may_hold(tmp_path: Path) -> None:
    text = HEAD.replace("spec 1\n", 'spec 1\nuse "gone.hts"\n').replace("m and m", "m and other")
    _, tellings = spec(text, tmp_path)
    assert [t.message for t in tellings] == ["there is no file 'gone.hts'"]


def test_what_a_file_has_itself_goes_before_what_it_uses(tmp_path: Path) -> None:
    library = "spec 1\nmaterial m {\n  p-number 4\n}\nmaterial lib {\n  p-number 5A\n}\n"
    library += "joint W1 {\n  kind seal\n}\njoint W7 {\n  kind seal\n}\n"
    (tmp_path / "lib.hts").write_text(library, encoding="utf-8")
    (tmp_path / "more.hts").write_text('spec 1\nuse "lib.hts"\n', encoding="utf-8")
    text = HEAD.replace("spec 1\n", 'spec 1\nuse "more.hts"\nuse "lib.hts"\n')
    text = text.replace("between m and m", "between m and lib")
    made, tellings = spec(text, tmp_path)
    assert [(t.name, t.at, t.message) for t in tellings] == [
        (
            "name-of-two-files",
            "m",
            "a material m is declared in a file that is used, too; this one counts",
        )
    ]
    joint = made.joints["W1"]
    assert joint.entry.kind == "girth butt"
    assert [side.material.p_number for side in joint.sides] == ["1", "5A"]
    assert list(made.joints) == ["W7", "W1"] and [one.name for one in made.own] == ["W1"]
    # Each library once, in the order named, its own uses after it.
    assert [Path(one.path).name for one in made.libraries] == ["more.hts", "lib.hts"]
    assert [source.name for source in made.sources] == ["text.hts", "more.hts", "lib.hts"]
    assert made.tables == [] and made.weld_lists == []


def test_the_version_of_the_language() -> None:
    _, tellings = spec(HEAD.replace("spec 1", "spec 2"))
    assert [(t.message, t.help) for t in tellings] == [
        ("this program knows version 1 of the language", "write spec 1")
    ]


def test_results_are_of_joints_of_the_text_beside_them(tmp_path: Path) -> None:
    (tmp_path / "W.hts").write_text(
        HEAD.partition("recorder")[0] + "joint W1 {\n  kind girth butt\n}\n"
    )
    loader = Loader(str(tmp_path))
    for name, joint, messages in (
        ("W.results.hts", "W1", []),
        ("W.results.hts", "W1, W13", ["results are given of W13, and no joint is named so"]),
        # Nobody knows whose they are.
        ("other.results.hts", "W13", []),
    ):
        text = f'spec 1\nresults {joint} {{\n  examined "MT" accepted\n}}\n'
        source = Source(text, name, str(tmp_path / name))
        assert [f.message for f in Spec(source, loader).findings] == messages
