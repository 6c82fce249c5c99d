"""A weld of alloy steel is not left untreated on what somebody recalls."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, places, quoted
from hts.checking.rules.helpers.metals import p_numbers
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.limits import Demand

#: P-numbers of steels whose welds crack or stay brittle where a treatment is left out by mistake.
_ALLOYED = ("3", "4", "5A", "5B", "5C", "15E")
_WEAK = ("memory", "practice")
_HOT = ("  at least          200 degF", "  at least          400 degF")
_CHROME = (
    ('grade        "A106-B"', 'grade        "A335 P22"'),
    ("C 0.25 %, Mn 0.80 %", "C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr 2.20 %, Mo 0.98 %"),
    _HOT,
)
_PREHEAT = "preheat D3 {"
_CLAIM = (
    "cycle exempt for D3 {\n  purpose stress relief\n"
    '  not required under asme-b31.3 edition 2018 "Table 331.1.3, read: P-No. 5A to 5/8 in"\n}\n\n'
)

RULE = Rule(
    "L233",
    "untreated-from-memory",
    "warning",
    summary="A weld of P-No. 3, 4, 5 or 15E without a cycle, which only an exemption recalled from "
    "memory leaves untreated.",
    why="If the row is recalled wrongly, a hard weld goes into service as welded.",
    fix="Read the row in the code itself and claim it in a cycle with `not required under`, or "
    "treat the weld.",
    source="the basis of the row that exempts",
    basis="derived",
    bad=(
        Bad(
            _CHROME,
            base="preheat",
            at="D3",
            says="ASME B31.3-2018 Table 331.1.3 (from memory) leaves D3",
        ),
    ),
    good=(Good((*_CHROME, (_PREHEAT, _CLAIM + _PREHEAT)), base="preheat"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if case.spec.file.job is None or joint.cycles:
        return
    # A cycle that could not be read whole may be the one for this joint.
    if any(not cycle.sound for cycle in case.spec.file.cycles):
        return
    if not any(number in _ALLOYED for number in p_numbers(joint)):
        return
    governing = case.limits(joint, joint.bakes[0] if joint.bakes else None).of(
        "post-weld heat treatment"
    )
    stated = governing.demands if governing is not None else ()
    leaving = [demand for demand in stated if demand.limit.status in ("exempt", "none")]
    # What is required is told as missing; one row that was read is enough to go by.
    if len(leaving) < len(stated) or not leaving:
        return
    by_side: dict[str | None, list[Demand]] = {}
    for demand in leaving:
        by_side.setdefault(demand.side, []).append(demand)
    for demands in by_side.values():
        if all(demand.limit.source.basis in _WEAK for demand in demands):
            _tell(case, joint, demands[0])
            return


def _tell(case: Case, joint: Joint, demand: Demand) -> None:
    limit = demand.limit
    case.add(
        RULE.found(
            f"nothing but {cited(limit.source)} leaves {joint.name} without post-weld heat treatment",
            joint.place("names"),
            address=joint.address,
            others=places(limit.source),
            basis=limit.source.basis,
            notes=[
                *([f"as recalled, the row holds where {limit.when.text}"] if limit.when else []),
                *([limit.source.note] if limit.source.note else []),
                *quoted(limit.source),
            ],
        )
    )
