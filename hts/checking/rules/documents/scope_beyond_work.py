"""The scope of a document reaches no further than its work by far."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule

_SHOW = "  show         SI and US\n"


def _scope(line: str) -> tuple[tuple[str, str], ...]:
    return ((_SHOW, f"{_SHOW}  scope {{\n    {line}\n  }}\n"),)


RULE = Rule(
    "D114",
    "scope-beyond-work",
    "warning",
    summary="A scope that covers walls or diameters six times as large as any of the job, or the heat of a "
    "treatment where the job has preheat alone.",
    why="It is the sign of a slip in the digits; whoever signs it approves work that nobody planned.",
    fix="Correct the scope. Where it is meant, waive the finding with the reason.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _scope("wall 5 .. 153 mm"),
            at="5 .. 153 mm",
            says="up to 153 mm (6.02 in) … is 25.4 mm (1 in)",
        ),
    ),
    edges=(
        Edge(
            _scope("wall 5 .. {}"),
            keeps="152 mm",
            breaks="153 mm",
            says="up to 153 mm (6.02 in) … is 25.4 mm (1 in)",
        ),
        Edge(
            (
                (
                    "  show         US and SI\n",
                    "  show         US and SI\n  scope {\n    temperature at most {}\n  }\n",
                ),
            ),
            keeps="800 degF",
            breaks="801 degF",
            base="preheat",
            says="up to 801 degF (427 degC)",
        ),
        Edge(
            _scope("outside diameter 60.3 .. {}"),
            keeps="1942 mm",
            breaks="1943 mm",
            says="up to 1943 mm (76.5 in) … is 323.8 mm (12.748 in)",
        ),
    ),
    good=(
        Good(_scope("wall 5 .. 152 mm")),
        Good(_scope("outside diameter 60.3 .. 1219 mm")),
    ),
    agrees=(
        Agreement("job.scope.wall", "joint.wall.thickness", "not six times the thickest"),
        Agreement("job.scope.outside diameter", "joint.pipe.NPS", "not six times the largest"),
    ),
)

#: Common practice, no source.
_TIMES = 6
#: Bake-out stays below it (AWS D10.10:2021).
_HOTTEST = Quantity.of(427, "degC", TEMPERATURE)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    scope = job.scope if job is not None else None
    if job is None or scope is None or not scope.sound:
        return
    joints = list(case.joints())
    treated = not joints or any(joint.cycles for joint in joints)
    if scope.hottest is not None and scope.hottest > _HOTTEST and not treated:
        case.add(
            RULE.found(
                f"the scope covers heat up to {scope.hottest.both()}; the job has no treatment",
                scope.place("hottest"),
                address=f"{job.name}/scope",
                basis=RULE.basis,
            )
        )
    for field, covered, what in (
        ("wall", scope.wall, "wall"),
        ("outside_diameter", scope.outside_diameter, "diameter"),
    ):
        found = [
            getattr(side, field).value
            for joint in case.joints()
            for side in joint.sides
            if getattr(side, field) is not None
        ]
        largest = max((each for each in found if isinstance(each, Quantity)), default=None)
        if covered is None or covered.high is None or largest is None:
            continue
        if covered.high > largest * _TIMES:
            place = next(
                side_figure.at
                for joint in case.joints()
                for side_figure in (getattr(side, field) for side in joint.sides)
                if side_figure is not None and side_figure.value is largest
            )
            case.add(
                RULE.found(
                    f"the scope covers a {what} up to {covered.high.both()}; the largest of the job "
                    f"is {largest.both()}",
                    scope.place(field),
                    address=f"{job.name}/scope",
                    others=[Label(place, "the largest")] if place is not None else [],
                    basis=RULE.basis,
                )
            )
