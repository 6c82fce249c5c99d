"""What a recorder or controller is named for gives it a signal."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_CRAYON = "temperature-indicating crayon at 3 in from 200 degF to 200 degF"
_PROBE = "  measured by       contact probe at 3 in from 32 degF to 800 degF\n"
_KEEP = "  keep until        end of welding\n}\n"
_RECORDER = """  keep until        end of welding
  recorded by       R1
}

recorder R1 {
  serial      "40-118"
  channels    6 type K range 0 .. 1600 degF
  interval    60 s
  error       +/- 3 degF
  calibrated  2026-09-01 until 2027-03-01
}
"""

RULE = Rule(
    "P114",
    "nothing-to-record",
    "warning",
    summary="A preheat with a recorder or controller, and only crayons to measure it.",
    why="A crayon shows a temperature to one person at one moment: nothing reaches the instrument.",
    fix="Attach thermocouples, or leave the recorder out.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (_CRAYON, _CRAYON.replace("to 200 degF", "to 600 degF")),
                (_PROBE, ""),
                (_KEEP, _RECORDER),
            ),
            at="R1",
            base="preheat",
        ),
    ),
    good=(Good(((_KEEP, _RECORDER),), base="preheat"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.measured or joint.thermocouples:
        return
    if any(way.how != "temperature-indicating crayon" for way in preheat.measured):
        return
    for field, reference in (
        ("recorded_by", preheat.recorded_by),
        ("controlled_by", preheat.controlled_by),
    ):
        if reference is not None:
            case.add(
                RULE.found(
                    f"{reference.name} gets no signal: only crayons measure the preheat of "
                    f"{joint.name}",
                    preheat.place(field),
                    address=f"{joint.address}/preheat",
                    basis=RULE.basis,
                )
            )
            return
