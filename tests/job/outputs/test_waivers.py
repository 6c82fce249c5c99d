"""What is set aside stands on every sheet that goes to the pipe."""

from __future__ import annotations

from hts.checking.rules.examples import changed
from hts.job.compiler.job import compile_spec
from hts.job.outputs import setpoint_sheet, tag_sheet
from tests.rows import each_row
from tests.texts import spec_of

_WAIVED = (
    "controller C1 {",
    'waive limits-cannot-be-met on W12 {\n  reason "Letter of 3 October"\n'
    '  by "Welding engineer"\n  until 2027-01-31\n}\n\ncontroller C1 {',
)


@each_row("sheet", [setpoint_sheet, tag_sheet])
@each_row("waived", [True, False])
def test_a_waiver_stands_on_setpoints_and_tags(sheet, waived: bool) -> None:
    text = changed("butt", (_WAIVED,) if waived else ())
    page = sheet.write(compile_spec(spec_of(text)))
    assert ("Letter of 3 October" in page) is waived
    assert ("until 2027-01-31" in page) is waived
