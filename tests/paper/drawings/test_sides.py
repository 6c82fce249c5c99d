"""Which side is up: by the words of the text and the flow, common practice, no source."""

import pytest

from hts.paper.drawings import unrolled
from hts.paper.drawings.sides import Sides, sides_of
from tests.paper.drawings.reading import job_of, words
from tests.paper.drawings.test_room import JOB


def text(places: list[str], flow: str = "", axis: str = "horizontal", kind: str = "") -> str:
    tags = "\n".join(
        f"    T{number} monitors soak edge at 12:00, 62 mm {place}"
        for number, place in enumerate(places, 1)
    )
    made = JOB.format(show="SI", supports=f"  flow {flow}" if flow else "", thermocouples=tags)
    made = made.replace("axis horizontal", f"axis {axis}")
    return made.replace("kind girth butt", f"kind {kind}") if kind else made


@pytest.mark.parametrize(
    ("places", "flow", "axis", "expected"),
    [
        (["upstream", "downstream"], "", "horizontal", (["upstream"], ["downstream"])),
        (["below"], "", "vertical", (["above"], ["below"])),
        (["side B"], "B to A", "horizontal", (["side A"], ["side B"])),
        # The line rises: what is upstream is below.
        (["upstream"], "up", "vertical", (["downstream"], ["upstream"])),
        (["upstream", "above"], "up", "vertical", (["downstream", "above"], ["upstream", "below"])),
        (
            ["upstream", "above"],
            "down",
            "vertical",
            (["upstream", "above"], ["downstream", "below"]),
        ),
        (
            ["upstream", "side A"],
            "B to A",
            "horizontal",
            (["downstream", "side A"], ["upstream", "side B"]),
        ),
    ],
)
def test_sides(
    places: list[str], flow: str, axis: str, expected: tuple[list[str], list[str]]
) -> None:
    joint = job_of(text(places, flow, axis)).joints[0].joint
    assert sides_of(joint) == Sides(tuple(expected[0]), tuple(expected[1]), False)


def test_unsettled_sides_are_told() -> None:
    job = job_of(text(["upstream", "side A"]))
    assert sides_of(job.joints[0].joint).unsettled
    shown = " ".join(words(unrolled(job, job.joints[0], (180, 120))))
    assert "does not say how upstream and side A go together" in shown
