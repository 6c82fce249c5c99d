"""The hydrogen of a filler is that of its covering, and of the class it is sold by."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.base.quantities import HYDROGEN, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.vocabulary.material import Filler

#: Up to here a filler is called low-hydrogen.
_LOW = Quantity.of(10, "ml/100g", HYDROGEN)
#: A covered electrode of AWS A5.1 and A5.5 by the digits of its covering, with what is said of its
#: moisture and hydrogen after it.
_COVERED = re.compile(r"E\d{2,3}(\d\d)(?!\d)")
_BASIC = ("15", "16", "18", "28", "48")
_CELLULOSE_OR_RUTILE = ("10", "11", "12", "13", "14", "19", "24")
#: Classes of hydrogen: of AWS A5.1 4, 8 and 16; of ISO 2560 and its fellows 5, 10 and 15.
_CLASS = re.compile(r"(?<![A-Z])H(4|5|8|10|15|16)(?!\d)")


def _filler(said: str) -> tuple[tuple[str, str], ...]:
    return (("joint W12 {", f"filler rod {{\n{said}\n}}\n\njoint W12 {{"),)


RULE = Rule(
    "M212",
    "hydrogen-unlike-covering",
    "warning",
    summary="A basic, dried or solid filler with more than 10 ml/100g of diffusible hydrogen, more of it "
    "than its class allows, or an electrode with a cellulosic or rutile covering with so little.",
    why="Preheat and bake are chosen by the hydrogen of the weld: with the wrong figure it cracks days "
    "later.",
    fix="Write the hydrogen of the certificate, or correct the classification.",
    source="AWS A5.1 and A5.5, ISO 2560 and ISO 3690: coverings and classes of hydrogen, from memory",
    basis="memory",
    bad=(
        Bad(
            _filler('  classification "E6010"\n  diffusible hydrogen 4 ml/100g'),
            at="4 ml/100g",
            says="E6010 … 4 ml/100g … 10 ml/100g",
        ),
    ),
    edges=(
        Edge(
            _filler('  classification "E9018-B3"\n  diffusible hydrogen {}'),
            keeps="10 ml/100g",
            breaks="10.1 ml/100g",
            says="E9018-B3 … 10.1 ml/100g … 10 ml/100g",
        ),
        Edge(
            _filler('  classification "ER90S-B3"\n  diffusible hydrogen {}'),
            keeps="10 ml/100g",
            breaks="10.1 ml/100g",
            says="ER90S-B3 … 10.1 ml/100g … 10 ml/100g",
        ),
        Edge(
            _filler("  diffusible hydrogen {}\n  dried at 350 degC for 2 h"),
            keeps="10 ml/100g",
            breaks="10.1 ml/100g",
            says="is dried … 10.1 ml/100g … 10 ml/100g",
        ),
        Edge(
            _filler('  classification "E7018-1 H4R"\n  diffusible hydrogen {}'),
            keeps="4 ml/100g",
            breaks="4.1 ml/100g",
            says="class H4 … 4.1 ml/100g … 4 ml/100g",
        ),
        Edge(
            _filler('  classification "E6013"\n  diffusible hydrogen {}'),
            keeps="10 ml/100g",
            breaks="9.9 ml/100g",
            says="E6013 … 9.9 ml/100g … 10 ml/100g",
        ),
    ),
    good=(
        Good(_filler('  classification "E71T-1C"\n  diffusible hydrogen 12 ml/100g')),
        Good(_filler('  classification "ER90S-B3"\n  diffusible hydrogen 2 ml/100g')),
    ),
    agrees=(
        Agreement(
            "filler.diffusible hydrogen",
            "filler.classification",
            "as little as its covering and class give",
        ),
        Agreement("filler.diffusible hydrogen", "filler.dried", "low where it is dried"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for filler in case.spec.file.fillers:
        if filler.sound and filler.hydrogen is not None:
            found = _unlike(filler, filler.hydrogen)
            if found is not None:
                message, field = found
                case.add(
                    RULE.found(
                        message,
                        filler.place("hydrogen"),
                        address=filler.name,
                        others=[Label(filler.place(field), "what says so")],
                        basis=RULE.basis,
                    )
                )


def _unlike(filler: Filler, hydrogen: Quantity) -> tuple[str, str] | None:
    """What does not fit, and the field it does not fit to."""
    said = (filler.classification or "").upper()
    named = f"{filler.name}, {filler.classification},"
    sold = _CLASS.search(said)
    if sold is not None:
        most = Quantity.of(int(sold.group(1)), "ml/100g", HYDROGEN)
        if hydrogen > most:
            return (
                f"{named} is of class H{sold.group(1)} and has {hydrogen} of hydrogen; the class "
                f"allows at most {most}",
                "classification",
            )
        return None
    covered = _COVERED.search(said)
    covering = covered.group(1) if covered is not None else ""
    if covering in _CELLULOSE_OR_RUTILE and hydrogen < _LOW:
        return (
            f"{named} is covered with cellulose or rutile and has {hydrogen} of hydrogen; usual is "
            f"at least {_LOW}",
            "classification",
        )
    if hydrogen <= _LOW:
        return None
    usual = f"has {hydrogen} of hydrogen; usual is at most {_LOW}"
    if covering in _BASIC:
        return f"{named} of a basic covering, {usual}", "classification"
    if re.match(r"ER\d", said):
        return f"{named} of solid wire, {usual}", "classification"
    if filler.dried is not None:
        return f"{filler.name} is dried and {usual}", "dried"
    return None
