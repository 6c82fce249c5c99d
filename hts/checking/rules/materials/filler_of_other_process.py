"""A filler is of a form that the welding process takes."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.material import Filler
from hts.science.tables.welding_processes import letters, processes

_WELDING = 'welding    "WPS-12" layers multiple process "GTAW and SMAW"'


def _welded(process: str, classification: str) -> tuple[tuple[str, str], ...]:
    return (
        (_WELDING, f'welding    "WPS-12" layers multiple process "{process}" filler rod'),
        ("joint W12 {", f'filler rod {{\n  classification "{classification}"\n}}\n\njoint W12 {{'),
    )


RULE = Rule(
    "M214",
    "filler-of-other-process",
    "warning",
    summary="A filler of a form that none of the welding processes named can take: a covered electrode "
    "with GTAW, a solid wire with SMAW.",
    why="Process, filler or welding procedure is that of another weld: hydrogen and preheat go by the filler, and "
    "nobody can weld as it stands.",
    fix="Name the process and the filler of the welding procedure.",
    source="classifications of AWS A5.1, A5.5, A5.4 and A5.11 (covered), A5.18, A5.28, A5.9 and A5.14 (solid), A5.20 and "
    "A5.29 (flux cored), A5.17 and A5.23 (submerged arc), from memory",
    basis="memory",
    bad=(
        Bad(
            _welded("GTAW", "E9018-B3"),
            at='"GTAW"',
            says="rod, E9018-B3, is a covered electrode, and W12 is welded by GTAW",
        ),
        Bad(_welded("121", "E309L-16"), at='"121"', says="a covered electrode … by 121"),
        Bad(_welded("SMAW", "ER90S-B3"), at='"SMAW"', says="is a solid wire or rod … by SMAW"),
        Bad(_welded("GTAW", "E91T1-B3"), at='"GTAW"', says="is a flux-cored wire … by GTAW"),
        Bad(_welded("SMAW", "F9P2-EB3R"), at='"SMAW"', says="is for submerged arc … by SMAW"),
    ),
    good=(
        Good(_welded("GTAW root, SMAW fill", "E9018-B3")),
        Good(_welded("TIG", "ER90S-B3")),
        Good(_welded("SAW", "ER90S-B3")),
        Good(_welded("SMAW", "ER90S-B3 root, E9018-B3")),
        # In words of another standard its form is not known.
        Good(_welded("GTAW", "W CrMo2Si")),
    ),
    agrees=(
        Agreement(
            "joint.welding.filler", "joint.welding.process", "of a form that the process takes"
        ),
        Agreement("filler.classification", "joint.welding.process", "its form is one it takes"),
    ),
)

#: What a classification looks like, what it is then, and the processes that take it.
_FORMS = (
    (re.compile(r"E\d{4,5}(?!\d)"), "a covered electrode", ("SMAW",)),
    (re.compile(r"E\d{3}[A-Z]*-(?:1[5-7]|2[56])\b"), "a covered electrode", ("SMAW",)),
    (re.compile(r"ENi\w*-\d+\b"), "a covered electrode", ("SMAW",)),
    (
        re.compile(r"ER\d|ERNi"),
        "a solid wire or rod",
        ("GTAW", "GMAW", "PAW", "SAW", "OFW", "ESW", "EGW", "EBW", "LBW"),
    ),
    (re.compile(r"E\d{2,3}T\d?-?\d?"), "a flux-cored wire", ("FCAW", "EGW")),
    (re.compile(r"F\d+[AP]\w*-E|E[LMH]\d{1,2}K?\b|EB\d+R?\b"), "for submerged arc", ("SAW", "ESW")),
)
_WORD = re.compile(r"[A-Z][\w.-]*")


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    welding = joint.entry.welding
    filler = welding.filler.target if welding is not None and welding.filler is not None else None
    if welding is None or not isinstance(filler, Filler) or not filler.classification:
        return
    named = [letters(each) for each in processes(welding.process or "")]
    taken, what = _takers(filler.classification)
    if not named or not taken or taken & {each for each in named if each is not None}:
        return
    case.add(
        RULE.found(
            f"{filler.name}, {filler.classification}, is {what}, and {joint.name} is welded by {welding.process}",
            welding.place("process"),
            address=f"{joint.address}/welding",
            others=[Label(filler.place("classification"), "the filler")],
            basis=RULE.basis,
        )
    )


def _takers(classification: str) -> tuple[set[str], str]:
    """The processes that take what is classified so, and what it is; none where its form is not known."""
    taken: set[str] = set()
    said = ""
    for word in _WORD.findall(classification):
        for form, what, by in _FORMS:
            if form.match(word):
                taken |= set(by)
                said = said or what
                break
    return taken, said
