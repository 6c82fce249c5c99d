"""An abbreviation means what the trade means by it."""

from __future__ import annotations

import re

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule

#: Abbreviations of the trade, and the word that tells each.
_MEANS = {
    "MT": r"magnetic",
    "PT": r"penetrant",
    "UT": r"ultrasonic",
    "RT": r"radiograph",
    "VT": r"visual",
    "PWHT": r"post.?weld",
    "HAZ": r"heat.?affected",
    "PQR": r"qualification",
    "WPS": r"welding procedure spec",
    "SMAW": r"shielded|covered|stick",
    "GTAW": r"tungsten",
    "SAW": r"submerged",
    "FCAW": r"flux.?cored",
    "HV": r"vickers",
    "HB": r"brinell",
    "HRC": r"rockwell",
}
_SHOW = "  show         SI and US\n"


def _defined(term: str, meaning: str) -> tuple[tuple[str, str], ...]:
    return ((_SHOW, f'{_SHOW}  definition   "{term}" "{meaning}"\n'),)


RULE = Rule(
    "D120",
    "abbreviation-of-other-word",
    "warning",
    summary="A definition that gives an abbreviation of the trade the meaning of another one.",
    why="The sheet asks for the abbreviation: another test is done than the one that is meant.",
    fix="Correct the abbreviation or its meaning.",
    source="abbreviations of ISO 9712 and ASME BPVC IX and V, from memory",
    basis="memory",
    bad=(
        Bad(
            _defined("MT", "Penetrant testing"),
            at='"Penetrant testing"',
            says="MT is defined as Penetrant testing, which is PT",
        ),
        Bad(
            _defined("MT", "Magnetic thickness measurement"),
            at='"Magnetic thickness measurement"',
            says="MT is defined as Magnetic thickness measurement, and is a test",
        ),
    ),
    good=(
        Good(_defined("UT", "Ultrasonic testing, thickness measured as well")),
        Good(_defined("MT", "Magnetic particle testing, where PT means penetrant testing")),
        Good(_defined("MT", "Prüfung mit Magnetpulver")),
        Good(_defined("VT", "Vent line")),
    ),
    agrees=(Agreement("job.definition.meaning", "job.definition.term", "what the trade means"),),
)

_TESTS = {"MT", "PT", "RT", "VT"}
_MEASURED = re.compile(
    r"\b(?:thickness|measur\w*|gaug\w*|temperature|transducer)\b(?!.*\btest)", re.IGNORECASE
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    for definition in job.definitions if job is not None else ():
        if not definition.sound:
            continue
        own = _MEANS.get(definition.term.strip().upper())
        if own is None:
            continue
        measured = _TESTS & {definition.term.strip().upper()} and _MEASURED.search(
            definition.meaning_
        )
        if measured:
            case.add(
                RULE.found(
                    f"{definition.term} is defined as {definition.meaning_}, and is a test",
                    definition.place("meaning_"),
                    address=definition.address,
                    basis=RULE.basis,
                )
            )
        if re.search(own, definition.meaning_, re.IGNORECASE):
            continue
        others = [
            term
            for term, word in _MEANS.items()
            if re.search(word, definition.meaning_, re.IGNORECASE)
        ]
        if others:
            case.add(
                RULE.found(
                    f"{definition.term} is defined as {definition.meaning_}, which is {others[0]}",
                    definition.place("meaning_"),
                    address=definition.address,
                    basis=RULE.basis,
                )
            )
