"""Whatever is spoiled or left out is noticed, and the sides can change places."""

from pathlib import Path

import pytest

from tests.corruption.slips import applied, corruptions
from tests.job.comparison.texts import FEW, SPECS, both_ways, changed, named, one, text_of
from tests.sampling import in_turn, whose_turn

#: Jobs: a library says little alone.
SOME = [path for path in FEW if path in SPECS]


EACH = pytest.mark.parametrize(
    ("path", "sixth"),
    [
        *((p, 0) for p in whose_turn(SOME)),
        *in_turn([(p, sixth) for p in SOME for sixth in range(1, 6)], 5),
    ],
    ids=lambda case: case.stem if isinstance(case, Path) else str(case),
)


@EACH
def test_a_line_left_out(path: Path, sixth: int) -> None:
    """Every line that says something."""
    lines = text_of(path).split("\n")
    said = [
        number
        for number, line in enumerate(lines)
        if line.strip(" }") and not line.lstrip().startswith("#") and not line.endswith("{")
    ]
    assert len(said) > 60
    for number in said[9 * sixth :: 54]:
        text = "\n".join(lines[:number] + lines[number + 1 :])
        assert both_ways(path, text).changes, lines[number]


@EACH
def test_a_fact_spoiled(path: Path, sixth: int) -> None:
    text = text_of(path)
    for corruption in list(corruptions(text))[7 * sixth :: 42]:
        assert both_ways(path, applied(text, corruption)).changes, corruption


def test_new_names() -> None:
    """A zone, its thermocouple, the spare of that one, and the cycle; each names the other."""
    path = named("p22-header")
    text = text_of(path)
    for old, new in (
        ("zone top", "zone upper"),
        ("controls top", "controls upper"),
        ("in top kind", "in upper kind"),
        ("T1 ", "TA "),
        ("T1S", "TAS"),
        ("stress-relief", "pwht"),
    ):
        text = text.replace(old, new)
    found = both_ways(path, text)
    assert sorted((c.action, c.kind) for c in found.changes if c.area != "document") == [
        ("renamed", "cycle"),
        ("renamed", "thermocouple"),
        ("renamed", "thermocouple"),
        ("renamed", "zone"),
    ]
    assert {c.verdict for c in found.changes} == {"note"}


def test_a_new_name_of_a_joint() -> None:
    """Whether it is the same weld, nobody can tell from the files."""
    path = named("p22-header")
    found = both_ways(path, text_of(path).replace(" W12", " W13"))
    assert [(c.action, c.kind, c.verdict) for c in found.changes if c.area == "joint"] == [
        ("renamed", "joint", "review")
    ]
    assert one(found, "joint/joint").lacks == "whether it is the same weld"


def test_a_new_name_of_what_others_refer_to() -> None:
    """T12 watches the tapping nearby; W22 is heated together with W21."""
    path = named("p22-header")
    found = both_ways(path, text_of(path).replace("T12", "M12"))
    assert [(c.action, c.address) for c in found.changes if c.area != "document"] == [
        ("renamed", "W12/thermocouples/M12")
    ]
    path = named("turnaround-many")
    found = both_ways(path, text_of(path).replace("W22", "W29"))
    assert [(c.action, c.address) for c in found.changes if c.area != "document"] == [
        ("renamed", "W29")
    ]


def test_a_new_name_of_a_material() -> None:
    path = named("materials")
    text = 'spec 1\nmaterial {} {{\n  grade "A106 B"\n}}\n'
    found = both_ways(path, text.format("pipe-b"), text.format("pipe-a"))
    assert [(c.action, c.verdict) for c in found.changes] == [("renamed", "note")]


def test_a_step_put_in_between_leaves_the_others() -> None:
    path = named("p22-header")
    new = "  heat to 300 degC\n  heat to 400 degC at most 50 degC/h\n"
    found = both_ways(path, text_of(path).replace("  heat to 300 degC\n", new))
    steps = [c for c in found.changes if c.area == "treatment"]
    assert [(c.action, c.address) for c in steps] == [("added", "W12/stress-relief/heat-2")]


def test_many_things_are_matched_once_each() -> None:
    """Renamed all together, one after the other in their order."""
    each = 'material {}{} {{\n  heat number "H{}"\n}}\n'
    old, new = ("".join(each.format(a, n, n) for n in range(400)) for a in "mn")
    found = both_ways(named("materials"), f"spec 1\n{new}", f"spec 1\n{old}")
    assert {c.action for c in found.changes} == {"renamed"} and len(found.changes) == 400


def test_a_joint_written_out_is_the_one_it_was_like() -> None:
    found = changed(named("turnaround-many"), ("joint W23, W24, W25 like", "joint W23, W24 like"))
    whole = [c for c in found.changes if c.kind == "joint"]
    assert [(c.action, c.address) for c in whole] == [("removed", "W25")]
