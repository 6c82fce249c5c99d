"""A wall thicker than the radius of its pipe is a slip that is told, and ends no check."""

from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import BASES
from tests.texts import spec_of

_CLIP = "  viewed     from above\n"
_NEARBY = '  nearby     "coated flange" 6 in above at most 120 degF\n'


def test_an_item_beside_the_preheat_of_a_pipe_thicker_than_its_radius() -> None:
    text = BASES["preheat"]
    assert _CLIP in text and "wall       0.432 in measured" in text
    text = text.replace(_CLIP, f"{_CLIP}{_NEARBY}")
    found = {f.kind.name for f in check_spec(spec_of(text))}
    assert "neighbour-beside-preheat" in found
    thick = text.replace("wall       0.432 in measured", "wall       4.32 in measured")
    found = {f.kind.name for f in check_spec(spec_of(thick))}
    assert found and "neighbour-beside-preheat" not in found
