"""A hardening weld that goes cold as welded does not wait for its treatment at will."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.examples import CYCLE
from hts.checking.rules.helpers.metals import hardens, p_numbers
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.helpers.steps import FROM_ABOVE, treated
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.cycle import KEPT_HOT, Cycle

#: As welded these are martensite, which cracks in moist air too.
_HARDEST = ("5B", "5C", "15E")
#: Out of thinner welds enough hydrogen escapes while they are welded, mm.
_THIN = 13
_UNTIL = "  keep until        end of welding"
#: Another joint, whose cycle says how soon it begins.
_BESIDE = f"joint W13 like W12 {{}}\n\ncycle second for W13 {{\n{CYCLE}  begin within 24 h\n}}\n\n"
_TO_P5 = (
    ('grade        "A335 P22"', 'grade        "A335 P5"'),
    ("Si 0.25 %, Cr 2.20 %, Mo 0.98 %", "Si 0.30 %, Cr 5.00 %, Mo 0.55 %"),
    ("  at least          150 degC", "  at least          180 degC"),
)
#: A pipe whose wall is measured, and its edge monitors.
_OF_WALL = (
    ("  pipe       NPS 12 schedule 120\n", "  pipe       NPS 12\n"),
    ("  wall       25.4 mm measured", "  wall       {} measured"),
    ("at 12:00, 287 mm downstream", "at 12:00, 247 mm downstream"),
    ("at 6:00,  287 mm upstream", "at 6:00,  247 mm upstream"),
)
_SECOND = (
    ("cycle stress-relief", f"{_BESIDE}cycle stress-relief"),
    ("preheat W12", "preheat W12, W13"),
)

RULE = Rule(
    "Y138",
    "begun-at-any-time",
    "warning",
    summary="A weld 13 mm thick or thicker that may go cold after welding, is not baked, and whose "
    "heat treatment may begin at any time: of 5 % chromium or more, or of less where another "
    "treatment of the text says how soon it begins.",
    why="Hard and full of hydrogen, it cracks within days, and the treatment only hides it.",
    fix="Write `begin within` and the time, or keep the preheat until the treatment.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_TO_P5, at="stress-relief", says="W12 may stand cold"),
        Bad(_SECOND, at="stress-relief", says="W12 may stand cold"),
    ),
    good=(
        Good((*_TO_P5, ("  rate margin  ", "  begin within 48 h\n  rate margin  "))),
        Good((*_TO_P5, (_UNTIL, "  keep until        post-weld heat treatment"))),
        # 2 1/4 % chromium, where nothing in the text is limited.
        Good(()),
    ),
    edges=(
        Edge(
            (*_TO_P5, *_OF_WALL),
            keeps="12.9 mm",
            breaks="13.0 mm",
            at="stress-relief",
            says="W12 may stand cold",
        ),
    ),
    agrees=(
        Agreement("cycle.begin within", "preheat.keep until", "soon, or hot until then"),
        Agreement("cycle.begin within", "material.grade", "stated for hardening steels"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for joint in case.joints():
        _look(case, joint)


def _look(case: Case, joint: Joint) -> None:
    preheat, cycles = joint.preheat, treated(joint)
    if preheat is None or not preheat.sound or joint.bakes or not cycles:
        return
    if joint.entry.weld_is == "made already" or preheat.until == "post-weld heat treatment":
        return
    treatment = cycles[0]
    cycle = treatment.cycle
    if cycle is None or not cycle.sound or cycle.purpose in FROM_ABOVE or not hardens(joint):
        return
    if cycle.delay is not None or cycle.begins in KEPT_HOT:
        return
    soon = _said_elsewhere(case)
    if soon is None and not any(number in _HARDEST for number in p_numbers(joint)):
        return
    thickness = limits_of(case, joint).thickness
    if thickness is None or thickness.value < _THIN:
        return
    governing = case.limits(joint, treatment).of("delay before heat treatment")
    if governing is not None and governing.setter("maximum") is not None:
        return
    others = [Label(preheat.place("until"), "kept hot so long")] if preheat.says("until") else []
    if soon is not None:
        others.append(Label(soon.place("delay"), "here it is said"))
    case.add(
        RULE.found(
            f"{joint.name} may stand cold as welded for any time before {treatment.name}",
            treatment.place("name"),
            address=treatment.address,
            others=others,
            basis=RULE.basis,
        )
    )


def _said_elsewhere(case: Case) -> Cycle | None:
    """A cycle of the text for hardening steel that says how soon it begins."""
    for joint in case.spec.joints.values():
        for treatment in treated(joint):
            cycle = treatment.cycle
            if cycle is not None and cycle.delay is not None and hardens(joint):
                return cycle
    return None
