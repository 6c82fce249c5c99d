"""What a procedure demands in one line fits what it demands in the next."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from typing import Any

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity, QuantityError
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import rows
from hts.checking.rules.helpers.metals import FERRITIC
from hts.checking.rules.helpers.metals_of_conditions import metals_of
from hts.checking.rules.helpers.rows import own_procedures, place
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.vocabulary.demanded import Every
from hts.language.vocabulary.procedure import Procedure
from hts.limits import Limit

_LINE = "  holding spread   at most 25 K"


def _with(*lines: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, "\n  ".join((_LINE, *lines))),)


RULE = Rule(
    "R141",
    "demands-unlike-each-other",
    "warning",
    summary="A procedure that demands an extension cable of another type than its thermocouples, a purpose that its own "
    "hold cannot serve, a flame and what feeds heaters, spares for what monitors alone, a weld kept colder than its "
    "preheat, or austenitic steel held where it is sensitized.",
    why="No job can keep both lines and be right; the one that keeps one of them is blamed for the other.",
    fix="Correct the one that is the slip.",
    source="IEC 60584-3 (the letter of an extension cable is that of its type); normalizing lies above, stress relief and "
    "tempering below the lower critical temperature: common practice",
    basis="practice",
    bad=(
        Bad(
            _with("requires thermocouples type K", "requires thermocouples extension JX"),
            base="owner",
            at="thermocouples extension JX",
            says="extension JX`, and thermocouples of type K",
        ),
        Bad(
            _with(
                "requires cycle purpose stress relief",
                "hold temperature at least 900 degC at most 950 degC",
            ),
            base="owner",
            at="cycle purpose stress relief",
            says="purpose stress relief`, and a hold of at least 900 degC",
        ),
        Bad(
            _with("requires heating by gas", "requires power source output at least 100 kW"),
            base="owner",
            at="heating by gas",
            says="`heating by gas`, and `power source output at least 100 kW`",
        ),
        Bad(
            (
                (
                    "requires spare for controlling thermocouples within 20 mm",
                    "requires spare for monitoring thermocouples within 20 mm",
                ),
            ),
            base="owner",
            at="spare for monitoring",
            says="within 20 mm`, and none for those that control",
        ),
    ),
    edges=(
        Edge(
            (
                ("applies to p-number  1, 4, 5A", "applies to p-number  8"),
                (_LINE, f"{_LINE}\n  hold temperature at least {{}}"),
            ),
            keeps="850 degC",
            breaks="849 degC",
            base="owner",
            says="holds P-8 at 849 degC: usual is no hold between 450 degC and 850 degC",
        ),
        Edge(
            _with(
                "preheat at least 150 degC when p_number = 5A",
                "requires preheat maintain at least {} when p_number = 5A",
            ),
            keeps="150 degC",
            breaks="149 degC",
            base="owner",
            at="preheat maintain at least 149 degC",
            says="maintain at least 149 degC`, and a preheat of at least 150 degC",
        ),
        Edge(
            _with(
                "requires cycle purpose normalizing",
                "hold temperature at least 700 degC at most {}",
            ),
            keeps="850 degC",
            breaks="849 degC",
            base="owner",
            at="cycle purpose normalizing",
            says="purpose normalizing`, and a hold of at most 849 degC",
        ),
    ),
    good=(
        Good(_with("requires thermocouples type K or N", "requires thermocouples extension NX"), base="owner"),
        Good(_with("requires thermocouples type K", "requires thermocouples extension KX"), base="owner"),
        Good(
            _with("requires cycle purpose stress relief", "hold temperature at least 690 degC at most 740 degC"),
            base="owner",
        ),
        Good(
            _with(
                "requires cycle purpose normalizing or stress relief",
                "hold temperature at least 600 degC at most 650 degC",
            ),
            base="owner",
        ),
    ),
    agrees=(
        Agreement("procedure.requires.what", "procedure.hold temperature.at most", "the purpose fits the hold"),
    ),
)  # fmt: skip

#: Purposes that need metal above, and below, its lower critical temperature.
_ABOVE = ("normalizing", "solution treatment")
_BELOW = ("stress relief", "intermediate stress relief", "repeated stress relief", "tempering")
_COLDEST = Quantity.of(850, "degC", TEMPERATURE)
#: Chromium carbides form on the grain boundaries (ASME VIII-1 UHA-32 asks for no such treatment; from memory).
_AUSTENITIC = {"8", "45"}
_SENSITIZED = Quantity.of(450, "degC", TEMPERATURE)
_HOTTEST = Quantity.of(880, "degC", TEMPERATURE)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for message, at in _sensitized(procedure):
            case.add(
                RULE.found(
                    f"{procedure.name} {message}", at, address=procedure.name, basis=RULE.basis
                )
            )
        for line, with_what, other in (
            *_cables(procedure),
            *_purposes(procedure),
            *_flames(procedure),
            *_spares(procedure),
            *_kept_colder(procedure),
        ):
            case.add(
                RULE.found(
                    f"{procedure.name} demands `{line.what.text}`, and {with_what}",
                    line.place("what"),
                    address=procedure.name,
                    others=[Label(other, "the other line")],
                    basis=RULE.basis,
                )
            )


def _sensitized(procedure: Procedure) -> Iterator[tuple[str, Span]]:
    """A hold for austenitic steel in the range that takes its resistance to corrosion from it."""
    metals = procedure.p_numbers
    if metals is None or not metals.each or not set(metals.each) <= _AUSTENITIC:
        return
    for row in rows(procedure):
        least = _fixed(row, "minimum") if row.quantity == "hold temperature" else None
        if least is not None and _SENSITIZED <= least < _COLDEST:
            named = ", P-".join(metals.each)
            at = place(procedure, row, "minimum")
            yield (
                f"holds P-{named} at {least}: usual is no hold between {_SENSITIZED} and {_COLDEST}",
                at,
            )


def _asked(procedure: Procedure, path: str) -> Iterator[tuple[Any, list[str]]]:
    """The unconditional demands of a word, each with the words that will do."""
    for line in procedure.requires:
        what = line.what
        if what is None or line.when is not None or line.otherwise is not None:
            continue
        if path in what.paths:
            name = path.rsplit(".", 1)[1]
            for test in what.tests:
                if test.among and name in (test.field.name, " ".join(test.field.words)):
                    yield line, [str(word) for word in test.among]


def _cables(procedure: Procedure) -> Iterator[tuple[Any, str, Span]]:
    types = list(_asked(procedure, "joint.thermocouples.type"))
    for line, codes in _asked(procedure, "joint.thermocouples.extension.code"):
        for other, letters in types:
            if not {code[:1].upper() for code in codes} & {letter.upper() for letter in letters}:
                yield line, f"thermocouples of type {' or '.join(letters)}", other.place("what")


def _purposes(procedure: Procedure) -> Iterator[tuple[Any, str, Span]]:
    held = [row for row in rows(procedure) if row.quantity == "hold temperature"]
    for line, purposes in _asked(procedure, "cycle.purpose"):
        if all(purpose in _ABOVE for purpose in purposes):
            tops = [(_fixed(row, "maximum"), row) for row in held]
            known = [(top, row) for top, row in tops if top is not None]
            if known and all(top < _COLDEST for top, _ in known):
                top, row = max(known, key=lambda each: each[0])
                yield line, f"a hold of at most {top}", place(procedure, row, "maximum")
        if all(purpose in _BELOW for purpose in purposes):
            for row in held:
                least = _fixed(row, "minimum")
                if least is not None and least > _HOTTEST:
                    yield line, f"a hold of at least {least}", place(procedure, row, "minimum")


def _flames(procedure: Procedure) -> Iterator[tuple[Any, str, Span]]:
    """A flame alone, where what feeds heaters is asked for as well."""
    for line, ways in _asked(procedure, "joint.heating.by"):
        other = next(
            (
                each
                for each in procedure.requires
                if each.what is not None and any(map(_is_fed, each.what.paths))
            ),
            None,
        )
        if set(ways) == {"gas"} and other is not None and other.what is not None:
            yield line, f"`{other.what.text}`", other.place("what")


def _is_fed(path: str) -> bool:
    return path.startswith(("power source.", "joint.heating.zone.power", "joint.heating.coil"))


def _spares(procedure: Procedure) -> Iterator[tuple[Any, str, Span]]:
    """Spares for what monitors, where none is asked for what controls."""
    asked = [
        (line, value)
        for line in procedure.requires
        if line.what is not None and "joint.thermocouples.thermocouple.spare for" in line.what.paths
        for test in line.what.tests
        for value in test.among
        if isinstance(value, Every)
    ]
    if asked and all(value.says == "monitors" for _, value in asked):
        line = asked[0][0]
        yield line, "none for those that control", line.place("what")


def _kept_colder(procedure: Procedure) -> Iterator[tuple[Any, str, Span]]:
    """A temperature that is kept while welding stops, below the preheat of the same metals."""
    preheats = [row for row in rows(procedure) if row.quantity == "preheat"]
    for line in procedure.requires:
        what = line.what
        if what is None or "preheat.maintain at least" not in what.paths or line.note:
            continue
        kept = next((test.least for test in what.tests if isinstance(test.least, Quantity)), None)
        mine = metals_of(line.when.text, list(FERRITIC)) if line.when is not None else []
        for row in preheats if kept is not None else ():
            least = _fixed(row, "minimum")
            its = metals_of(row.when.text, list(FERRITIC)) if row.when is not None else []
            alone = row.when is None or set(row.when.names) == {"p_number"}
            if least is None or kept is None or not alone or kept >= least:
                continue
            if row.when is None or (mine and its and set(mine) <= set(its)):
                yield line, f"a preheat of at least {least}", place(procedure, row, "minimum")
                break


def _fixed(row: Limit, direction: str) -> Quantity | None:
    bound = getattr(row, direction)
    if bound is not None:
        with suppress(QuantityError):
            return Quantity.read(bound.text, TEMPERATURE)
    return None
