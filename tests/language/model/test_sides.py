"""Size, wall and metal of each side of a joint, and where each figure is from: by hand.

Sizes are those of ASME B36.10M: NPS 12 is 323.8 mm, NPS 6 168.3 mm; schedule 120 of NPS 12 is
25.4 mm, schedule 40 of NPS 6 7.11 mm.
"""

from __future__ import annotations

from math import pi

import pytest

from hts.base.findings import ordered
from hts.language.model import Spec
from hts.language.model.branching import Branching, NotPlaced, branching
from tests.language.vocabulary.read import Told, told
from tests.rows import each_row
from tests.texts import spec_of

METALS = """spec 1
material a {
  grade "A335 P22"
  composition C 0.11 %, Mn 0.45 %, Cr 2.20 %
  tempered at 740 degC
}
material b {
  p-number 4
  tensile strength 500 MPa
  specified carbon 0.15 %
}
material c {
  grade "A106-B"
  specified carbon 0.20 %
  composition C 0.22 %
}
material d {
  grade "A106-B"
}
"""


def spec(*lines: str, kind: str = "girth butt") -> tuple[Spec, list[Told]]:
    body = "".join(f"  {line}\n" for line in (f"kind {kind}", *lines))
    made = spec_of(f"{METALS}joint W1 {{\n{body}}}\n")
    return made, [told(finding) for finding in ordered(made.findings)]


def shown(*lines: str, kind: str = "girth butt") -> list[tuple[str | None, ...]]:
    """(name, material, outside diameter, inside, wall, how it was taken, nominal size)."""
    made, _ = spec(*lines, kind=kind)
    return [
        (
            side.name,
            side.material and side.material.name,
            side.outside_diameter and str(side.outside_diameter.value),
            side.inside_diameter and str(side.inside_diameter),
            side.wall and str(side.wall.value),
            side.wall_taken,
            side.nominal_size and str(side.nominal_size),
        )
        for side in made.joints["W1"].sides
    ]


@each_row(
    ("lines", "expected"),
    [
        (("between a and b",), [("upstream", "a", *[None] * 5), ("downstream", "b", *[None] * 5)]),
        (("between a and b", "pipe NPS 12 schedule 120"),
         [("upstream", "a", "323.8 mm", "273 mm", "25.40 mm", "nominal", "12"),
          ("downstream", "b", "323.8 mm", "273 mm", "25.40 mm", "nominal", "12")]),
        # What is measured goes before the schedule.
        (("between a and a", "pipe NPS 12 schedule 120", "wall 26 mm measured"),
         [("upstream", "a", "323.8 mm", "271.8 mm", "26 mm", "measured", "12"),
          ("downstream", "a", "323.8 mm", "271.8 mm", "26 mm", "measured", "12")]),
        (("side upstream of a NPS 12 schedule 120", "side downstream of b NPS 12 wall 20 mm"),
         [("upstream", "a", "323.8 mm", "273 mm", "25.40 mm", "nominal", "12"),
          ("downstream", "b", "323.8 mm", "283.8 mm", "20 mm", None, "12")]),
        (("between a and a", "wall 20 mm nominal", "side downstream of b wall 22 mm measured"),
         [("upstream", "a", None, None, "20 mm", "nominal", None),
          ("downstream", "b", None, None, "22 mm", "measured", None)]),
        # An outside diameter of no size in the table counts as of the next larger one.
        (("side A of a outside diameter 323.8 mm wall 160 mm",
          "side B of b outside diameter 300 mm"),
         [("A", "a", "323.8 mm", "3.8 mm", "160 mm", None, "12"),
          ("B", "b", "300 mm", None, None, None, "12")]),
        (("side A of a outside diameter 300 mm wall 150 mm",),
         [("A", "a", "300 mm", None, "150 mm", None, "12")]),
        (("side A of a DN 300 wall 10 mm",),
         [("A", "a", "323.8 mm", "303.8 mm", "10 mm", None, "12")]),
        (("side A of a NPS 12 outside diameter 324.1 mm",),
         [("A", "a", "324.1 mm", None, None, None, "12")]),
    ],
)  # fmt: skip
def test_sizes(lines: tuple[str, ...], expected: list[tuple[str | None, ...]]) -> None:
    assert shown(*lines) == expected


def test_sides_of_a_branch() -> None:
    found = shown("between a and b", kind="branch")
    assert [each[:2] for each in found] == [("run", "a"), ("branch", "b")]
    made, _ = spec("side run of a NPS 12 wall 20 mm", "side branch of a NPS 6 wall 10 mm",
                   kind="branch")  # fmt: skip
    # Thermocouples stand on the branch, elsewhere on the larger pipe.
    assert str(made.joints["W1"].outside_diameter) == "168.3 mm"
    two, _ = spec("side A of a outside diameter 300 mm", "side B of a outside diameter 310 mm")
    assert str(two.joints["W1"].outside_diameter) == "310 mm"
    assert spec()[0].joints["W1"].outside_diameter is None


NEAREST = "the nearest sizes are: NPS 12, NPS 14"


@each_row(
    ("line", "message", "at", "help"),
    [
        ("pipe NPS 13", "there is no pipe of size 13", "13", NEAREST),
        ("pipe NPS 12 schedule 121", "NPS 12 has no schedule 121", "121", "it has "),
        ("side A of a NPS 13", "there is no pipe of size 13", "13", NEAREST),
        ("pipe DN 310", "there is no pipe of size DN 310", "310", "the nearest sizes are: DN"),
    ],
)  # fmt: skip
def test_a_size_that_is_not_there(line: str, message: str, at: str, help: str) -> None:
    _, tellings = spec("between a and a", line)
    found = [t for t in tellings if t.message == message]
    assert found and all(t.at == at and t.help.startswith(help) for t in found), tellings


def test_a_grade_that_is_not_there() -> None:
    text = 'spec 1\nmaterial m {{\n  grade "{}"{}\n}}\njoint W1 {{\n  kind seal\n'
    text += "  between m and m\n}}\n"
    (finding, *_) = spec_of(text.format("A335 P21", "")).findings
    assert finding.message == "the grade table has no 'A335 P21'"
    assert finding.help.endswith("if not, state its p-number and group")
    assert "did you mean A335 P" in finding.help
    assert spec_of(text.format("A335 P21", "\n  p-number 5A")).findings == []
    assert spec_of(text.format("A335 P21", "\n  en group 5.2")).findings == []
    assert spec_of(text.format("A335 P22", "")).findings == []
    (unlike, *_) = spec_of(text.format("qqqqqq", "")).findings
    assert unlike.help == "if not, state its p-number and group"


def test_figures_of_a_metal() -> None:
    made, _ = spec("between a and b")
    first, second = made.joints["W1"].sides
    assert [first.figure(name).value for name in ("p_number", "group")] == ["5A", "1"]
    # The analysis goes before the table, what the grade may have does not.
    assert str(first.figure("carbon").value) == "0.11 %"
    assert str(first.figure("chromium").value) == "2.20 %"
    assert str(first.figure("manganese").value) == "0.45 %"
    assert str(first.figure("specified_carbon").value) == "0.15 %"
    assert str(first.figure("tempering_temperature").value) == "740 degC"
    assert first.figure("carbon").origin == "analysis of a"
    assert first.figure("lower_critical").value.to("degC") == 805
    assert first.figure("p_number").origin.startswith("A335 P22: ")
    assert (second.figure("p_number").value, second.figure("p_number").basis) == ("4", "stated")
    assert second.figure("p_number").origin == "material b"
    assert str(second.figure("tensile_strength").value) == "500 MPa"
    for name in ("carbon", "chromium", "lower_critical", "tempering_temperature", "en_group"):
        assert second.figure(name) is None
    third, fourth = spec("between c and d")[0].joints["W1"].sides
    # A heat with more carbon than is stated counts for what it has.
    assert str(third.figure("specified_carbon").value) == "0.22 %"
    # A106-B: 0.30 % at most (ASTM A106).
    assert fourth.figure("specified_carbon").value.to("%") == pytest.approx(0.30)
    assert fourth.figure("specified_carbon").origin.startswith("A106-B: ")
    assert str(second.figure("specified_carbon").value) == "0.15 %"


RUN, BRANCH = "side run of a NPS 12 wall 20 mm", "side branch of a NPS 6 wall 10 mm"


@each_row(
    ("lines", "angle", "offset", "crotch", "sense", "assumed"),
    [
        (("branch weld angle 60 deg crotch at 3:00", "viewed from branch"), 60, 0, 90, 1,
         ("that the axes of branch and run meet",)),
        (("branch weld crotch at 12:00", "viewed from branch"), 90, 0, 0, 1,
         ("that the branch stands square on its run", "that the axes of branch and run meet")),
        (("viewed from branch", "datum flow arrow"), 90, 0, 0, 1,
         ("that the branch stands square on its run", "that the axes of branch and run meet")),
        (("branch weld crotch at 3:00 offset 20 mm toward 6:00", "viewed from branch"), 90, 20, 90,
         1, ("that the branch stands square on its run",)),
        (("branch weld crotch at 3:00 offset 20 mm toward 12:00", "viewed from branch"), 90, -20,
         90, 1, ("that the branch stands square on its run",)),
        # With the flow out of the run into the branch the clock is seen from the run.
        (("branch weld crotch at 3:00 offset 20 mm toward 6:00", "viewed with flow",
          "flow run to branch"), 90, -20, 90, -1, ("that the branch stands square on its run",)),
    ],
)  # fmt: skip
def test_how_a_branch_stands(
    lines: tuple[str, ...], angle: float, offset: float, crotch: float, sense: int,
    assumed: tuple[str, ...],
) -> None:  # fmt: skip
    made, _ = spec(RUN, BRANCH, *lines, kind="branch")
    found = branching(made.joints["W1"])
    assert isinstance(found, Branching), found
    assert (float(found.crotch.degrees), found.sense, found.assumed) == (crotch, sense, assumed)
    crossing = found.crossing
    assert (crossing.angle, crossing.offset) == (angle, offset)
    assert (crossing.run, crossing.branch) == pytest.approx((161.9, 84.15))
    # Clockwise as seen: from the crotch on, or back.
    assert found.turn(crotch) == 0
    assert found.turn(crotch + 30) == (30 if sense == 1 else 330)
    assert found.turn(crotch - 90) % 360 == (270 if sense == 1 else 90)
    for turn in (0, 30, 90, 200.2):
        degrees = float(found.clock(turn).degrees)
        # The clock tells minutes: half a degree.
        assert abs((found.turn(degrees) - turn + 180) % 360 - 180) <= 0.25
    assert pi > 3


@each_row(
    ("lines", "why", "entry"),
    [
        ((RUN, "viewed from branch"), "the outside diameter of run or branch is not known",
         "`side run …` and `side branch …`"),
        ((RUN, BRANCH, "branch weld crotch at 3:00"), "it is not told from where the clock is seen",
         "`viewed from branch`"),
        ((RUN, BRANCH, "viewed from branch"), "it is not told which clock position lies at the "
         "crotch", "`branch weld … crotch at …`"),
        ((RUN, BRANCH, "viewed from branch", "datum flow arrow", "branch weld angle 60 deg"),
         "it is not told which clock position lies at the crotch", "`branch weld … crotch at …`"),
        ((RUN, BRANCH, "viewed from branch", "branch weld crotch at 3:00 offset 20 mm toward 3:00"),
         "the offset of the branch is not told as toward a clock position square to the crotch",
         "`branch weld … offset … toward …`"),
        ((RUN, BRANCH, "viewed from branch", "branch weld crotch at 3:00 offset 9 cm toward 6:00"),
         "the branch leans too far or reaches past the side of its run", ""),
        ((f"{RUN} part valve", BRANCH, "viewed from branch", "branch weld crotch at 3:00"),
         "the outside of the run, a valve, is no cylinder", ""),
    ],
)  # fmt: skip
def test_why_places_about_a_branch_are_not_known(
    lines: tuple[str, ...], why: str, entry: str
) -> None:
    made, _ = spec(*lines, kind="branch")
    assert branching(made.joints["W1"]) == NotPlaced(why, entry)
