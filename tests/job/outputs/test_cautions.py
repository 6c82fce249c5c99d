"""Which of the usual cautions a sheet gives: common practice, no source."""

from hts.checking.rules.examples import BUTT
from hts.job.compiler import compile_spec
from hts.job.outputs.cautions import usual
from tests.rows import each_row
from tests.texts import spec_of

ALWAYS = {"Burns", "Fibres", "Fire", "Confined space", "Movement", "Pressure"}
HOW = "capacitor discharge legs apart 6 mm energy 100 J each leg apart"
ATTACHED = f"    attached            {HOW}\n"
HEATED = "heating by resistance"
PREHEATED = "method            resistance"


def _told(*changes: tuple[str, str]) -> set[str]:
    text = BUTT
    for before, after in changes:
        assert before in text
        text = text.replace(before, after)
    return {said.partition(":")[0] for _, said in usual(compile_spec(spec_of(text)).joints)}


@each_row(
    ("changes", "more"),
    [
        ((), {"Electric shock", "Attachment unit"}),
        # Nobody says how: it may be so that hurts.
        (((ATTACHED, ""),), {"Electric shock", "Attachment unit"}),
        (((ATTACHED, "    attached mechanical\n"),), {"Electric shock"}),
        (((PREHEATED, "method gas"),), {"Electric shock", "Attachment unit", "Gas"}),
        (
            ((HEATED, "heating by induction"), (PREHEATED, "method gas")),
            {"Electric shock", "Induction", "Attachment unit", "Gas"},
        ),
        (((HEATED, "heating by gas"), (PREHEATED, "method gas")), {"Attachment unit", "Gas"}),
    ],
)
def test_a_caution_has_a_reason(changes: tuple[tuple[str, str], ...], more: set[str]) -> None:
    assert _told(*changes) == ALWAYS | more
