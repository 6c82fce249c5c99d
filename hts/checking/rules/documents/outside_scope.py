"""What a document bounds in its scope bounds its joints and treatments."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.quantities import Interval, Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.counted import few
from hts.checking.rules.helpers.steps import hottest
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.job import Scope

_SHOW = "  show         SI and US\n"


def _scope(line: str) -> tuple[tuple[str, str], ...]:
    return ((_SHOW, f"{_SHOW}  scope {{\n    {line}\n  }}\n"),)


RULE = Rule(
    "D109",
    "outside-scope",
    "warning",
    summary="A joint or a treatment outside what the scope of the document covers.",
    why="Whoever approved the document approved it for its scope: what lies outside was not looked "
    "at.",
    fix="Widen the scope and have it approved, or correct the joint.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_scope("axis vertical"), at="horizontal"),
        Bad(_scope("method induction"), at="resistance"),
    ),
    edges=(
        Edge(
            (
                (
                    "  show         SI and US\n",
                    "  show         SI and US\n  scope {\n    wall 5 .. {}\n  }\n",
                ),
            ),
            keeps="25.4 mm",
            breaks="25.3 mm",
            at="25.4 mm",
            says="25.4 mm (1 in), … 5 mm (0.197 in) to 25.3 mm (0.996 in)",
        ),
        Edge(
            (
                (
                    "  show         SI and US\n",
                    "  show         SI and US\n  scope {\n    outside diameter 60.3 .. {}\n  }\n",
                ),
            ),
            keeps="323.8 mm",
            breaks="323.7 mm",
            at="12",
            says="323.8 mm (12.748 in), … 60.3 mm (2.374 in) to 323.7 mm (12.744 in)",
        ),
        Edge(
            (
                (
                    "  show         SI and US\n",
                    "  show         SI and US\n  scope {\n    temperature at most {}\n  }\n",
                ),
            ),
            keeps="730 degC",
            breaks="729 degC",
            at="700 .. 730 degC",
            says="up to 730 degC (1346 degF) … at most 729 degC (1344 degF)",
        ),
    ),
    good=(Good(_scope("axis horizontal\n    wall 20 .. 30 mm\n    temperature at most 730 degC")),),
    agrees=(
        Agreement("job.scope.method", "joint.heating.by", "the method is covered"),
        Agreement("job.scope.axis", "joint.axis.lies", "the axis is covered"),
        Agreement("job.scope.part", "joint.side.part", "the part is covered"),
        Agreement("job.scope.wall", "joint.wall.thickness", "the wall is covered"),
        Agreement("job.scope.outside diameter", "joint.pipe.NPS", "the diameter is covered"),
        Agreement("job.scope.temperature at most", "cycle.hold.range", "not exceeded"),
        Agreement("job.scope.temperature at most", "preheat.interpass.at most", "not exceeded"),
    ),
)
_Told = tuple[str, Span, str]
_MANY = 4


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    scope = job.scope if job is not None else None
    if scope is None or not scope.sound:
        return
    told: dict[str, list[tuple[Joint, str, Span]]] = {}
    for joint in case.joints():
        for message, at, field in (*_of_joint(scope, joint), *_temperatures(case, scope, joint)):
            told.setdefault(field, []).append((joint, message, at))
    for field, found in told.items():
        # So many joints at once are one slip of the scope.
        shown = found if len(found) <= _MANY else found[:1]
        names = list(dict.fromkeys(joint.name for joint, _, _ in found[len(shown) :]))
        for joint, message, at in shown:
            case.add(
                RULE.found(
                    message,
                    at,
                    address=joint.address,
                    others=[Label(scope.place(field), "the scope")],
                    notes=[f"outside it in the same way: {few(names)}"] if names else [],
                    basis=RULE.basis,
                )
            )


def _of_joint(scope: Scope, joint: Joint) -> Iterator[_Told]:
    entry = joint.entry
    heating, preheat = entry.heating, joint.preheat
    if heating is not None and scope.methods and heating.method not in scope.methods:
        message = f"{joint.name} is heated by {heating.method}, which the scope does not cover"
        yield message, heating.place("method"), "methods"
    elif preheat is not None and scope.methods and preheat.method not in (None, *scope.methods):
        message = f"{joint.name} is preheated by {preheat.method}, not covered by the scope"
        yield message, preheat.place("method"), "methods"
    if entry.axis is not None and scope.axes and entry.axis.lies not in scope.axes:
        message = f"{joint.name} is {entry.axis.lies}, which the scope does not cover"
        yield message, entry.axis.place("lies"), "axes"
    for said in entry.sides if scope.parts else ():
        if said.part is not None and said.part not in scope.parts:
            yield f"the scope does not cover a {said.part}", said.place("part"), "parts"
    for side in joint.sides:
        for figure, bounds, what, field in (
            (side.wall, scope.wall, "wall", "wall"),
            (side.outside_diameter, scope.outside_diameter, "diameter", "outside_diameter"),
        ):
            if figure is None or bounds is None or _within(figure.value, bounds):
                continue
            assert isinstance(figure.value, Quantity)
            message = (
                f"the {what} of {joint.name}, {figure.value.both()}, is outside the scope, "
                f"{_both(bounds)}"
            )
            yield message, figure.at or joint.place(), field


def _temperatures(case: Case, scope: Scope, joint: Joint) -> Iterator[_Told]:
    hottest_covered = scope.hottest
    if hottest_covered is None:
        return
    for treatment in case.treatments(joint):
        top = hottest(case, treatment)
        if top is not None and top[1] > hottest_covered:
            message = (
                f"{joint.name} is held at up to {top[1].both()}, beyond the scope: "
                f"at most {hottest_covered.both()}"
            )
            yield message, top[0].place("range"), "hottest"
    preheat = joint.preheat
    interpass = preheat.interpass if preheat is not None and preheat.sound else None
    highest = interpass.at_most if interpass is not None else None
    if isinstance(highest, Quantity) and highest > hottest_covered and interpass is not None:
        message = (
            f"{joint.name} may reach {highest.both()} between passes, beyond the scope: at most "
            f"{hottest_covered.both()}"
        )
        yield message, interpass.place("at_most"), "hottest"


def _both(bounds: Interval) -> str:
    """`18 mm (0.709 in) to 26 mm (1.02 in)`."""
    assert bounds.low is not None and bounds.high is not None
    return f"{bounds.low.both()} to {bounds.high.both()}"


def _within(value: object, bounds: Interval) -> bool:
    assert isinstance(value, Quantity) and bounds.low is not None and bounds.high is not None
    return bounds.low <= value <= bounds.high
