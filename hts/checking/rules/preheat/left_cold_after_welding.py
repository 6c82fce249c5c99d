"""Hardening steel that must not go cold before its treatment is not left to at the end of welding."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.metals import p_numbers
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint

#: Of 2 % chromium and more.
_HARDEST = ("5A", "5B", "5C", "15E")
#: Out of thinner welds enough hydrogen escapes while they are welded, mm.
_THIN = 13
_KEPT = "  when interrupted  cool slowly and preheat again"
_UNTIL = "  keep until        end of welding"
_HOT = (_KEPT, "  when interrupted  keep hot\n  maintain at least 150 degC")

#: A pipe whose wall is measured, and its edge monitors.
_OF_WALL = (
    ("  pipe       NPS 12 schedule 120\n", "  pipe       NPS 12\n"),
    ("  wall       25.4 mm measured", "  wall       {} measured"),
    ("at 12:00, 287 mm downstream", "at 12:00, 247 mm downstream"),
    ("at 6:00,  287 mm upstream", "at 6:00,  247 mm upstream"),
)

RULE = Rule(
    "P142",
    "left-cold-after-welding",
    "warning",
    summary="A weld of 2 % chromium or more, 13 mm thick or thicker, that is kept hot when welding "
    "stops, but let go cold after the last pass, or of which nothing says until when it is kept.",
    why="Cold, hard and full of hydrogen, the finished weld cracks before it is heat treated.",
    fix="Keep the preheat until the bake or the heat treatment.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (_HOT,),
            at="keep until",
            says="W12 is kept hot when welding stops, and goes cold at the end of welding",
        ),
        Bad(
            (_HOT, (f"{_UNTIL}\n", "")),
            at="keep hot",
            says="W12 is kept hot when welding stops; nothing says until when after the last pass",
        ),
    ),
    good=(
        # 1 1/4 % chromium may stand cold once it is finished.
        Good(
            (
                _HOT,
                ('grade        "A335 P22"', 'grade        "A335 P11"'),
                ("Si 0.25 %, Cr 2.20 %, Mo 0.98 %", "Si 0.60 %, Cr 1.20 %, Mo 0.50 %"),
                ("heat  to 715 degC", "heat  to 690 degC"),
                ("hold  700 .. 730 degC", "hold  675 .. 705 degC"),
            )
        ),
        Good(
            (
                _HOT,
                (_UNTIL, "  keep until        post-weld heat treatment"),
            )
        ),
    ),
    edges=(
        Edge(
            (_HOT, *_OF_WALL),
            keeps="12.9 mm",
            breaks="13.0 mm",
            at="keep until",
            says="W12 is kept hot when welding stops, and goes cold at the end of welding",
        ),
    ),
    agrees=(Agreement("preheat.when interrupted", "preheat.keep until", "hot before, hot after"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat, cycles = joint.preheat, treated(joint)
    if preheat is None or not preheat.sound or not cycles or joint.bakes:
        return
    if not any(number in _HARDEST for number in p_numbers(joint)):
        return
    thickness = limits_of(case, joint).thickness
    if thickness is None or thickness.value < _THIN:
        return
    if preheat.until not in (None, "end of welding") or not all(c.entry.sound for c in cycles):
        return
    # What begins from preheat, and what is kept hot at nothing, has findings of its own.
    if preheat.interrupted != "keep hot" or preheat.maintain is None:
        return
    if any(cycle.cycle is not None and cycle.cycle.begins == "from preheat" for cycle in cycles):
        return
    hot = preheat.place("interrupted")
    if preheat.until is None:
        then, at, others = "; nothing says until when after the last pass", hot, []
    else:
        then, at = ", and goes cold at the end of welding", preheat.place("until")
        others = [Label(hot, "kept hot")]
    case.add(
        RULE.found(
            f"{joint.name} is kept hot when welding stops{then}",
            at,
            address=f"{joint.address}/preheat",
            others=others,
            basis=RULE.basis,
        )
    )
