"""What the facts of a joint make dangerous or uncertain is checked before heat."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import Point, Work

_DRAINED = '  check "Bore drained and vented" about drained and vented\n'
_VALVE = '  nearby     "gate valve" 350 mm downstream at most 200 degC protected\n'
_CHECKS = f'  check "Each tag warmed by hand" about tag matches channel\n{_DRAINED}'
_ENOUGH = f"before heat W12 {{\n{_CHECKS}  insulation resistance at least 1 Mohm\n}}\n\n"
_LOCKED = (
    'support    "rod hanger" 1.2 m upstream fixed',
    'support "spring hanger" 1.2 m upstream locked',
)
_SHOWN = ("  show         SI and US\n", '  show         SI and US\n  permit       "HW-221"\n')
_WATCH = '  check "Fire watch posted" about fire watch\n'
_PINNED = '  check "Hanger pinned" about supports\n'
_AFTER = (
    "during heat W12 { reading every 1 h }\n\n"
    "after heat W12 {\n  hardness weld at most 248 HV10 count 3\n"
    '  check "Hanger released" about supports\n}\n\n'
)


def _before(text: str) -> tuple[str, str]:
    return ("controller C1 {", f"{text}controller C1 {{")


RULE = Rule(
    "K102",
    "missing-check",
    "warning",
    summary="Checks before heat that leave out what the joint's own facts call for: drained bore, "
    "purge gas, locked or temporary supports, protected neighbours, thermocouples, insulation of "
    "heaters; and under a permit the fire watch, and a gas test where what was in the line burns.",
    why="Liquid shut in bursts the bore, purge gas suffocates, a pinned hanger that nobody looked "
    "at bends the line, a swapped thermocouple overheats the weld.",
    fix="Add the check with its topic, and who signs it.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                _before(
                    _ENOUGH.replace("tag matches channel", "other").replace(
                        "tag warmed by hand", "thermocouple"
                    )
                ),
            ),
            at="before heat",
        ),
        Bad(
            (_before(_ENOUGH.replace("  insulation resistance at least 1 Mohm\n", "")),),
            at="before heat",
        ),
        Bad(
            (_before(_ENOUGH.replace(_DRAINED, "")),),
            at="before heat",
            says="about drained and vented (the bore is to be dry)",
        ),
        Bad(
            (_before(_ENOUGH), ("bore           drained and dry", "bore           purged")),
            at="before heat",
            says="about gas test (the bore is purged)",
        ),
        Bad(
            (
                _before(_ENOUGH),
                ('  support    "rod', f'{_VALVE}  support    "rod'),
            ),
            at="before heat",
            says="about nearby items protected (gate valve, protected)",
        ),
        Bad(
            (
                _before(_ENOUGH),
                ("  rate margin  ", '  program "P12 rev A"\n  rate margin  '),
            ),
            at="before heat",
            says="about program matches procedure (a program)",
        ),
        Bad((_SHOWN, _before(_ENOUGH)), at="before heat", says="about fire watch (a permit)"),
        Bad(
            (
                _SHOWN,
                _before(_ENOUGH.replace("}", f"{_WATCH}}}", 1)),
                ("  made in    field\n", "  made in    field\n  service    hydrocarbon\n"),
            ),
            at="before heat",
            says="about gas test (hydrocarbon)",
        ),
        # Looked at after the heat alone.
        Bad((_LOCKED, _before(_ENOUGH + _AFTER)), at="before heat", says="about supports"),
    ),
    good=(
        Good((_before(_ENOUGH),)),
        Good((_SHOWN, _before(_ENOUGH.replace("}", f"{_WATCH}}}", 1)))),
        Good(
            (
                _SHOWN,
                _before(
                    _ENOUGH.replace(
                        "}", f'{_WATCH}  check "Line isolated and blinded" about isolation\n}}', 1
                    )
                ),
                ("  made in    field\n", "  made in    field\n  service    hydrocarbon\n"),
            )
        ),
        Good((_LOCKED, _before(_ENOUGH.replace("}", f"{_PINNED}}}", 1) + _AFTER))),
    ),
    agrees=(
        Agreement(
            "before heat.check.about", "joint.support.state", "pinned and temporary supports"
        ),
        Agreement("before heat.check.about", "joint.heating.bore", "drained, or purged"),
        Agreement("before heat.check.about", "joint.nearby.protected", "protection in place"),
        Agreement("before heat.check.about", "joint.thermocouples", "each tag on its channel"),
        Agreement("before heat.check.about", "cycle.program", "program is procedure"),
        Agreement("before heat.check.about", "job.permit", "hot work under a permit is watched"),
        Agreement("before heat.check.about", "joint.service", "a gas test where it burns"),
        Agreement(
            "before heat.insulation resistance at least", "joint.heating.by", "resistance heaters"
        ),
    ),
)
_Wanted = tuple[str, str, Span]
#: What burns or poisons, and the topics under which a line is known to be free of it.
_BURNS = ("hydrocarbon", "hydrogen", "ammonia", "wet hydrogen sulphide", "lethal")
_FREE_OF_GAS = {"gas test", "isolation", "permit"}


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    blocks = [*joint.before, *joint.during, *joint.after]
    listed = any(block.checks or block.hold_points for block in joint.before)
    if not listed or not all(block.sound for block in blocks):
        return
    # What is looked at after the heat is too late for what goes wrong in it.
    known = [*joint.before, *joint.during]
    topics = {item.about for block in known for item in block.checks}
    topics |= {point.about for block in known for point in _points(block)}
    found = [wanted for wanted in _wanted(joint) if wanted[0] not in topics]
    found += [
        wanted
        for wanted in _under_a_permit(case, joint, topics)
        if wanted[0] not in {each[0] for each in found}
    ]
    heating = joint.entry.heating
    if (
        heating is not None
        and heating.method == "resistance"
        and all(block.insulation_resistance is None for block in joint.before)
    ):
        found.append(("insulation resistance", "resistance heaters", heating.place("method")))
    if not found:
        return
    missing = ", ".join(f"{topic} ({reason})" for topic, reason, _ in found)
    case.add(
        RULE.found(
            f"nothing before heat of {joint.name} is about {missing}",
            joint.before[0].place(),
            address=f"{joint.address}/before-heat",
            others=[Label(at, reason) for _, reason, at in found],
            basis=RULE.basis,
        )
    )


def _points(block: Work) -> Iterator[Point]:
    yield from block.hold_points
    yield from block.witness_points


def _under_a_permit(case: Case, joint: Joint, topics: set[str | None]) -> Iterator[_Wanted]:
    """What hot work in a plant asks for, where the job says that it is under a permit."""
    job, heating = case.spec.file.job, joint.entry.heating
    if job is None or not job.permit or joint.entry.made != "field":
        return
    if heating is not None and heating.method == "furnace":
        return
    if "fire watch" not in topics:
        yield "fire watch", "a permit", job.place("permit")
    burning = next((each for each in joint.entry.service if each in _BURNS), None)
    if burning is not None and treated(joint) and not topics & _FREE_OF_GAS:
        yield "gas test", burning, joint.place("service")


def _wanted(joint: Joint) -> Iterator[_Wanted]:
    """Topic, the fact that asks for it in words, and where that is written."""
    heating = joint.entry.heating
    bore = heating.bore if heating is not None else None
    if heating is not None and bore == "drained and dry":
        yield "drained and vented", "the bore is to be dry", heating.place("bore")
    if heating is not None and bore == "purged":
        yield "gas test", "the bore is purged", heating.place("bore")
    for support in joint.entry.supports:
        if support.state in ("locked", "temporary"):
            yield "supports", f"{support.what}, {support.state}", support.place("state")
            break
    for item in joint.entry.nearby:
        if item.protected:
            yield "nearby items protected", f"{item.what}, protected", item.place("protected")
            break
    cycles = treated(joint)
    if cycles and joint.thermocouples:
        yield "tag matches channel", "thermocouples", joint.thermocouples[0].place("name")
    for cycle in cycles:
        if cycle.entry.program is not None:
            yield "program matches procedure", "a program", cycle.place("program")
            break
