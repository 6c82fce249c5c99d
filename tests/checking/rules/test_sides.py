"""Words for the sides of a weld mean ends of one pipe: what the text ties is one side."""

import pytest

from hts.base.text import Source
from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import changed
from hts.language.model import Loader, Spec
from hts.language.model.apart import apart

RISER = (
    ("axis       horizontal", "axis       vertical"),
    ("datum      top", "datum      north"),
    ("at 12:00, 40 mm downstream", "at 12:00, 40 mm above     "),
)


def spec(flow: str, *changes: tuple[str, str]) -> Spec:
    view = ("viewed     with flow", f"viewed     from above\n  flow {flow}")
    return Spec(Source(changed("butt", (*RISER, view, *changes)), "x.hts"), Loader("/"))


@pytest.mark.parametrize(("flow", "one_side"), [("up", False), ("down", True)])
def test_above_is_downstream_of_a_line_that_rises(flow: str, one_side: bool) -> None:
    """T3 is above; T4 upstream of the weld: below it where the line rises."""
    found = [finding.kind.name for finding in check_spec(spec(flow))]
    assert ("edge-monitored-on-one-side" in found) == one_side
    assert "sides-not-settled" not in found


def test_one_place_told_in_two_ways() -> None:
    made = spec("up", ("at 6:00,  40 mm upstream  ", "at 12:00, 40 mm downstream"))
    tags = {tc.tag: tc for tc in made.joints["W12"].thermocouples}
    assert apart(tags["T3"], tags["T4"]) == 0
    made = spec("down", ("at 6:00,  40 mm upstream  ", "at 12:00, 40 mm downstream"))
    tags = {tc.tag: tc for tc in made.joints["W12"].thermocouples}
    assert apart(tags["T3"], tags["T4"]) == 80
