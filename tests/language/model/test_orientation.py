"""Which end of the pipe a word means: what `viewed` and `flow` tie together, by hand."""

from __future__ import annotations

from hts.language.model.heavy import heavy_sections, side_at, taper_of
from hts.language.model.joint import Joint
from hts.language.model.orientation import Orientation, named, pair_of, untied
from tests.rows import each_row
from tests.texts import spec_of


def joint(*lines: str, kind: str = "girth butt") -> Joint:
    text = "".join(f"  {line}\n" for line in (f"kind {kind}", *lines))
    return spec_of(f"spec 1\nmaterial m {{\n  p-number 1\n}}\njoint W1 {{\n{text}}}\n").joints["W1"]


def signs(*lines: str) -> dict[str, int]:
    """The words that are told to be an end the viewer looks toward, or one behind him."""
    orientation = Orientation(joint(*lines).entry)
    assert orientation.clashes == []
    words = ("upstream", "downstream", "A", "side B", "below", "above", "run", "on branch",
             "south", "north", "west", "east")  # fmt: skip
    return {word: sign for word in words if (sign := orientation.sign(word)) is not None}


@each_row(
    ("lines", "toward", "behind"),
    [
        ((), "", ""),
        # Seen with the flow one looks downstream.
        (("viewed with flow",), "downstream", "upstream"),
        (("viewed against flow",), "upstream", "downstream"),
        (("viewed from side A",), "side B", "A"),
        (("viewed from side B",), "A", "side B"),
        (("viewed from above",), "below", "above"),
        (("viewed from below",), "above", "below"),
        (("viewed from north", "axis horizontal"), "south", "north"),
        (("viewed from branch",), "run", "on branch"),
        # The flow alone ties its words to each other, not to the gaze.
        (("flow A to B",), "", ""),
        (("viewed with flow", "flow A to B"), "downstream, side B", "upstream, A"),
        (("viewed with flow", "flow B to A"), "downstream, A", "upstream, side B"),
        (("viewed against flow", "flow up"), "upstream, below", "downstream, above"),
        (("viewed with flow", "flow down"), "downstream, below", "upstream, above"),
        (("viewed from side A", "flow A to B"), "side B, downstream", "A, upstream"),
        (("viewed from above", "flow B to A, down"), "below, downstream, A",
         "above, upstream, side B"),
        (("viewed from branch", "flow run to branch"), "run, upstream", "on branch, downstream"),
        (("viewed from branch", "flow branch to run"), "run, downstream", "on branch, upstream"),
        (("viewed with flow", "flow north"), "downstream, north", "upstream, south"),
        (("viewed with flow", "flow south"), "downstream, south", "upstream, north"),
        (("viewed with flow", "flow east"), "downstream, east", "upstream, west"),
        (("viewed with flow", "flow west"), "downstream, west", "upstream, east"),
        (("viewed from side A", "flow up"), "side B", "A"),
    ],
)  # fmt: skip
def test_the_ends_a_viewer_sees(lines: tuple[str, ...], toward: str, behind: str) -> None:
    expected = dict.fromkeys(filter(None, toward.split(", ")), 1)
    expected |= dict.fromkeys(filter(None, behind.split(", ")), -1)
    assert signs(*lines) == expected


@each_row(
    ("lines", "field", "words"),
    [
        (("axis horizontal", "viewed from above"), "viewed",
         "`viewed from above` of a pipe that lies horizontal"),
        (("axis horizontal", "viewed with flow", "flow up"), "flow",
         "`flow up` of a pipe that lies horizontal"),
        (("axis vertical", "viewed from north"), "viewed",
         "`viewed from north` of a pipe that stands vertical"),
        (("axis vertical", "flow east"), "flow", "`flow east` of a pipe that stands vertical"),
        (("flow north, east",), "flow", "`flow east` is square to a direction that is stated, too"),
        (("flow A to B, B to A",), "flow", "`flow B to A` contradicts what is stated, too"),
        (("viewed from north", "flow north, A to B"), None, None),
        (("viewed from side A", "flow A to B, up"), None, None),
        (("axis vertical", "flow up, A to B"), None, None),
        (("axis horizontal", "flow north, A to B"), None, None),
        (("axis inclined 30 deg", "viewed with flow", "flow up, north"), None, None),
    ],
)  # fmt: skip
def test_what_cannot_both_hold(
    lines: tuple[str, ...], field: str | None, words: str | None
) -> None:
    orientation = Orientation(joint(*lines).entry)
    if field is None:
        assert orientation.clashes == []
        return
    assert [tuple(clash) for clash in orientation.clashes] == [(field, words)]
    # Nothing can be relied on then.
    assert orientation.sign("downstream") is orientation.compared("side A", "downstream") is None
    assert orientation.compared("side A", "A") == 1


def test_distances_count_toward_one_end() -> None:
    tied = Orientation(joint("viewed with flow", "flow A to B").entry)
    # Flow, letters, height, branch: the first that tells.
    assert [tied.along(side) for side in ("downstream", "upstream", "A", "side B", "above")] == [
        ("downstream", 1), ("downstream", -1), ("downstream", -1), ("downstream", 1), ("above", 1)
    ]  # fmt: skip
    free = Orientation(joint().entry)
    assert [free.along(side) for side in ("A", "below", "on run", "north", "left")] == [
        ("side B", -1), ("above", -1), ("on branch", -1), ("north", 1), ("left", 1)
    ]  # fmt: skip
    assert free.compared("left", "A") is None
    assert pair_of("on run") == ("on run", "on branch")


THERMOCOUPLES = """thermocouples type K class 1 {{
    colours IEC 60584-3
    T1 monitors base metal at 12:00, 80 mm {} channel 1
  }}"""


@each_row(
    ("lines", "words"),
    [
        ((THERMOCOUPLES.format("upstream"),), ["upstream"]),
        (('nearby "valve" 1 m side A',), ["side A"]),
        (("heavy section flange 60 mm downstream wall 55 mm over 90 mm",), ["downstream"]),
        (('support "hanger" 1 m above fixed',), ["above"]),
        (('support "hanger" 1 m above fixed', 'nearby "valve" 1 m side A',
          THERMOCOUPLES.format("upstream")), ["upstream", "side A", "above"]),
        ((), []),
    ],
)  # fmt: skip
def test_the_words_a_joint_places_things_by(lines: tuple[str, ...], words: list[str]) -> None:
    found = list(named(joint(*lines)))
    assert [side for side, _ in found] == words
    for side, at in found:
        text = at.source.text[at.start : at.end]
        assert side in text


@each_row(
    ("lines", "expected"),
    [
        ((), None),
        (("viewed with flow", 'support "hanger" 1 m upstream fixed'), None),
        (("viewed with flow", 'support "hanger" 1 m side A fixed'), ("side A", "downstream")),
        (("viewed with flow", "flow A to B", 'support "hanger" 1 m side A fixed'), None),
        # Two words of different pairs.
        (('support "hanger" 1 m side A fixed', 'nearby "valve" 1 m upstream'),
         ("side A", "downstream")),
        # Of a pipe that stands, up and down have to be told, too.
        (("axis vertical", "viewed with flow", 'support "hanger" 1 m upstream fixed'),
         ("downstream", "above")),
        (("axis vertical", "viewed with flow", "flow up", 'support "hanger" 1 m upstream fixed'),
         None),
        (("axis horizontal", "viewed with flow", 'support "hanger" 1 m upstream fixed'), None),
    ],
)  # fmt: skip
def test_a_word_that_nothing_ties(lines: tuple[str, ...], expected: tuple[str, str] | None) -> None:
    one = joint(*lines)
    found = untied(one, Orientation(one.entry))
    assert (found and (found.side, found.other[1])) == expected


FLANGE = "heavy section flange 60 mm downstream wall 55 mm over 90 mm"


@each_row(
    ("lines", "begins", "rise", "wall"),
    [
        # A step; a taper of 25 mm; 4 in 1 on a rise of 55 - 20 = 35 mm is 140 mm.
        ((FLANGE,), 60, 35, 20),
        ((f"{FLANGE} taper 25 mm",), 35, 35, 20),
        ((f"{FLANGE} slope 1",), 25, 35, 20),
        ((f"{FLANGE} slope 1.5",), 7.5, 35, 20),
    ],
)
def test_a_heavy_section(lines: tuple[str, ...], begins: float, rise: float, wall: float) -> None:
    one = joint("between m and m", "wall 20 mm measured", *lines)
    (heavy,) = heavy_sections(one)
    assert heavy.side is not None and heavy.side.name == "downstream"
    lengths = (heavy.begins, heavy.full, heavy.ends, heavy.thick, heavy.wall, heavy.rise)
    assert [float(length.to("mm")) for length in lengths if length is not None] == [
        begins, 60, 150, 55, wall, rise
    ]  # fmt: skip


def test_heavy_sections_of_a_side_that_is_not_told() -> None:
    other = FLANGE.replace("downstream", "side A").replace("60 mm", "40 mm")
    one = joint("between m and m", "wall 20 mm measured", f"{FLANGE} slope 4", f"{other} slope 4")
    first, second = heavy_sections(one)
    # The nearest first; which pipe side A is nothing tells, so that its rise is not known.
    assert [float(each.full.to("mm")) for each in (first, second)] == [40, 60]
    assert (first.side, first.wall, first.rise) == (None, None, None)
    assert float(first.begins.to("mm")) == 40
    tied = joint("between m and m", "wall 20 mm measured", "viewed with flow", "flow A to B", other)
    (heavy,) = heavy_sections(tied)
    assert heavy.side is not None and heavy.side.name == "upstream"
    assert side_at(tied, "side B") is tied.sides[1]
    thin = joint("between m and m", "wall 60 mm measured", f"{FLANGE} slope 4")
    (heavy,) = heavy_sections(thin)
    assert float(taper_of(heavy.entry, None).value) == 0
    assert heavy.begins == heavy.full
    assert heavy.rise is not None and heavy.rise.value < 0


def test_a_joint_without_sides() -> None:
    assert side_at(joint(), "upstream") is None
    assert heavy_sections(joint(FLANGE))[0].side is None
