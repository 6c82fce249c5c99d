"""What a procedure asks for is what its reason speaks for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.good_ends import MORE_IS_BETTER
from hts.checking.rules.helpers.plain_words import compiled
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.helpers.sentences import NUMBERS, denied
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.vocabulary.procedure import Procedure

_LINE = "  holding spread   at most 25 K"
_OPTION = "  forbids          lower-temperature hold"


def _with(line: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, f"{_LINE}\n  {line}"),)


RULE = Rule(
    "R139",
    "demand-unlike-its-reason",
    "warning",
    summary="A least width because of too much; something forbidden because it went well, or let go because of harm; a role, a place or a way of heating that "
    "is not the one the reason speaks of.",
    why="The reason is what the owner has learned; the figure or the word beside it is the slip.",
    fix="Correct the demand, or its reason.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _with('requires heating heated band at least 600 mm total because "Bands came out too wide"'),
            base="owner",
            at='"Bands came out too wide"',
            says="at least 600 mm total` because of `Bands came out too wide`, which speaks of too much",
        ),
        Bad(
            _with('requires calculation for bands because "Where it is too wide the head bends"'),
            base="owner",
            at='"Where it is too wide the head bends"',
            says="which speaks of too much",
        ),
        Bad(
            ((_OPTION, '  forbids lower-temperature hold because "Hardness was reached on repairs"'),),
            base="owner",
            at='"Hardness was reached on repairs"',
            says="forbids lower-temperature hold because of `Hardness was reached on repairs`, which speaks for it",
        ),
        Bad(
            _with('post-weld heat treatment exempt when service = amine because "Stress corrosion cracking"'),
            base="owner",
            at='"Stress corrosion cracking"',
            says="lets welds go (exempt) because of `Stress corrosion cracking`, which speaks against it",
        ),
        Bad(
            _with('zones at least 3 because "Two zones have held such pipe within 20 K"'),
            base="owner",
            at='"Two zones',
            says="asks for 3 zones because of `Two zones have held such pipe within 20 K`, which speaks of two",
        ),
        Bad(
            (('  hold time        at most 6 h', '  hold time        at most 4 h because "Each hour adds toughness"'),),
            base="owner",
            at='"Each hour adds toughness"',
            says="which speaks for more of it",
        ),
        Bad(
            _with('forbids widths by multiples of wall because "They came out wider than needed"'),
            base="owner",
            at='"They came out wider than needed"',
            says="which speaks of too much",
        ),
        Bad(
            _with('requires signed endorsed "Yard engineer" because "The inspector accepts each"'),
            base="owner",
            at='"The inspector accepts each"',
            says="which speaks of an inspector",
        ),
        Bad(
            _with('requires joint made in field because "No spool is treated on the quay"'),
            base="owner",
            at='"No spool is treated on the quay"',
            says="which speaks for the shop",
        ),
        Bad(
            _with('forbids heating by resistance because "No open flame in a closed space"'),
            base="owner",
            at='"No open flame in a closed space"',
            says="which speaks of gas",
        ),
        Bad(
            _with(
                'requires preheat when interrupted cool slowly and preheat again because "It is never left cold half done"'
            ),
            base="owner",
            at='"It is never left cold half done"',
            says="which speaks for keeping it hot",
        ),
    ),
    good=(
        Good(((_OPTION, '  forbids lower-temperature hold because "Hardness was not reached"'),), base="owner"),
        Good(
            _with('requires heating insulation thickness at least 50 mm because "Losses were too high"'),
            base="owner",
        ),
        Good(
            _with('requires responsibility "Technician" because "The inspector asks for a name"'),
            base="owner",
        ),
        Good(_with('zones at least 3 because "Two zones were not enough"'), base="owner"),
        Good(
            _with('requires heating heated band at least 600 mm total because "Bands came out too narrow"'),
            base="owner",
        ),
        Good((('  hold time        at most 6 h', '  hold time        at most 4 h because "Long holds cost toughness"'),), base="owner"),
        Good(_with('forbids widths by multiples of wall because "They came out narrower"'), base="owner"),
        Good(_with('requires signed endorsed "Inspector" because "The inspector accepts it"'), base="owner"),
        Good(
            _with('requires before heat hold point by "Engineer" because "The inspector is not there at night"'),
            base="owner",
        ),
        Good(_with('requires joint made in shop because "No spool is treated on the quay"'), base="owner"),
        Good(_with('forbids heating by gas because "No open flame in a closed space"'), base="owner"),
    ),
    agrees=(Agreement("procedure.requires.because", "procedure.requires.what", "speaks for it"),),
)  # fmt: skip

_MUCH = (
    r"\btoo wide\b|\bwider than (?:\w+ )?(?:need\w*|asked|the heat needs|necessary|it has to be)"
)
#: Widths, of which more is better.
_WIDTHS = ("soak band", "heated band", "gradient band", "preheat width", "bake width")
_WIDE = (
    "joint.calculation.for",
    *(path for path in MORE_IS_BETTER if path.endswith(("band", "width"))),
)
#: What went wrong, and what went well.
_AGAINST = (
    r"\b(?:crack\w*|fail\w*|harm\w*|damag\w*|brittle|soft\w*|hard(?:er|ened)|lost|burst\w*|leak\w*|corro\w*|distort\w*|late"
    r"|too|scrap\w*|repairs? were|narrow\w*|cost\w*|danger\w*|unsafe|wrong)\b"
)
_WELL = r"\b(?:was|were|has been|have been) (?:reached|met|proven|proved|sound|sufficient|shown)(?! to\b)"
_NO_HARM = (
    r"\b(?:never|not|no)\b[^,;]*\b(?:been found|been seen|was found|occurred|failed|cracked)\b"
)
#: Heat treatment itself is what does the harm.
_BY_HEAT = r"\b(?:re-?heat\w*|treat\w*|heat\w*|temper\w*|anneal\w*)\b"
_GAINS = (
    r"^(?!.*\b(?:no|not|never|nothing|none)\b).*\b(?:adds|gains|improves|raises|helps|restores) (?:\w+ )?(?:toughness|strength"
    r"|ductility|safety|it|the weld)\b"
)
_COUNTED = rf"^(\d+|{'|'.join(NUMBERS)}) (?:zones|thermocouples)\b"
_ROLES = r"\b(inspector|engineer|supervisor|technician|metallurgist|surveyor|foreman|operator|welder)s?\b"
_SIGNS = r"\b(?:accepts?|signs?|approves?|releases?|witness(?:es)?|reviews?|endorses?)\b"
_PLACES = {
    "field": r"\b(?:quay|site|field|outdoors?|open air|rack|scaffold\w*|in the plant)\b",
    "shop": r"\b(?:shop|workshop|works|hall|indoors|under a roof)\b",
}
_HEATING = {
    "gas": r"\b(?:flames?|burners?|torch(?:es)?|soot)\b",
    "induction": r"\b(?:magneti[sz]\w*|eddy|arc blow|coils?)\b",
}
_KEPT = r"\b(?:never|not) (?:left|let|allowed to go|goes?|get) cold\b|\bkept hot\b|\bstays? hot\b|\bnever cold\b"


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for line, asked, spoken in _unlike(procedure):
            case.add(
                RULE.found(
                    f"{procedure.name} {asked} because of `{line.note}`, which speaks {spoken}",
                    line.place("note"),
                    address=procedure.name,
                    others=[Label(line.place(), "the demand")],
                    basis=RULE.basis,
                )
            )


def _unlike(procedure: Procedure) -> Iterator[tuple[Any, str, str]]:
    """The lines whose reason speaks of something else, with what they ask for and what it speaks of."""
    for limit in procedure.limits:
        if limit.sound and isinstance(limit.note, str):
            yield from _number(limit, limit.quantity)
        if limit.sound and isinstance(limit.note, str) and not denied(limit.note):
            name = limit.quantity
            alone = limit.minimum is not None and limit.maximum is None
            if alone and name in _WIDTHS and compiled(_MUCH).search(limit.note):
                yield limit, f"limits {name}", "of too much"
            if limit.maximum is not None and compiled(_GAINS).search(limit.note):
                yield limit, f"limits {name}", "for more of it"
    for treatment in procedure.treatments:
        if (
            (
                treatment.sound
                and isinstance(treatment.note, str)
                and treatment.status in ("exempt", "none")
            )
            and compiled(_AGAINST).search(treatment.note)
            and not denied(treatment.note)
        ):
            yield treatment, f"lets welds go ({treatment.status})", "against it"
    for option in procedure.forbids:
        if option.sound and isinstance(option.note, str):
            what = option.option or (option.what.text if option.what is not None else "that")
            if _speaks_for(option.note):
                yield option, f"forbids {what}", "for it"
            wide = option.option == "widths by multiples of wall" and compiled(_MUCH).search(
                option.note
            )
            if wide and not denied(option.note):
                yield option, f"forbids {option.option}", "of too much"
            yield from ((option, f"forbids {what}", said) for said in _heating(option))
    for line in (*procedure.requires, *procedure.prefers):
        if line.sound and line.what is not None and isinstance(line.note, str):
            for said in (_end(line), _role(line), _place(line), _kept(line)):
                if said:
                    yield line, f"asks for `{line.what.text}`", said


def _speaks_for(note: str) -> bool:
    """Whether a reason tells that something went well, or that no harm was found."""
    if denied(note):
        return bool(compiled(_NO_HARM).search(note))
    return bool(compiled(_WELL).search(note)) and not compiled(_AGAINST).search(note)


def _number(limit: Any, name: str) -> Iterator[tuple[Any, str, str]]:
    """Where a reason counts what a limit counts, and has another number or finds that it did not do."""
    bound = limit.minimum
    found = compiled(_COUNTED).search(limit.note) if name in ("zones", "thermocouples") else None
    if found is None or bound is None or not bound.text.strip().isdigit():
        return
    word = found[1].lower()
    said = int(word) if word.isdigit() else NUMBERS.index(word) + 1
    if said == int(bound.text) and denied(limit.note):
        yield limit, f"asks for {bound.text} {name}", "against them"
    elif said != int(bound.text) and not denied(limit.note):
        yield limit, f"asks for {bound.text} {name}", f"of {word}"


def _end(line: Any) -> str:
    """`of too much` where the demand wants a width of at least so much."""
    what = line.what
    if denied(line.note) or not what.paths & {*_WIDE}:
        return ""
    upward = any(test.most is not None for test in what.tests)
    return "of too much" if not upward and compiled(_MUCH).search(line.note) else ""


def _role(line: Any) -> str:
    """The one role a reason speaks of, where the demand names another."""
    asked = {
        found.lower()
        for test in line.what.tests
        for value in test.among
        if isinstance(value, str)
        for found in compiled(_ROLES).findall(value)
    }
    meant = {found.lower() for found in compiled(_ROLES).findall(line.note)}
    if not compiled(_SIGNS).search(line.note) or not any(map(_is_of_a_role, line.what.paths)):
        return ""
    if len(asked) != 1 or len(meant) != 1 or asked == meant or denied(line.note):
        return ""
    role = meant.pop()
    return f"of {'an' if role[0] in 'aeiou' else 'a'} {role}"


def _is_of_a_role(path: str) -> bool:
    return path.startswith("job.signed.") or path.endswith((".by", ".accepted by"))


def _place(line: Any) -> str:
    """For which place a reason speaks, where the demand has the other."""
    if "joint.made in" not in line.what.paths:
        return ""
    made = {value for test in line.what.tests for value in test.among}
    named = [place for place, words in _PLACES.items() if compiled(words).search(line.note)]
    if len(made) != 1 or len(named) != 1:
        return ""
    wanted = named[0]
    if denied(line.note):
        wanted = "shop" if wanted == "field" else "field"
    return "" if wanted in made else f"for the {wanted}"


def _heating(line: Any) -> Iterator[str]:
    """The way of heating a reason speaks of, where another is forbidden."""
    if line.what is None or not {"joint.heating.by", "preheat.method"} & line.what.paths:
        return
    forbidden = {value for test in line.what.tests for value in test.among}
    named = {way for way, words in _HEATING.items() if compiled(words).search(line.note)}
    if forbidden and len(named) == 1 and not named & forbidden:
        yield f"of {named.pop()}"


def _kept(line: Any) -> str:
    if "preheat.when interrupted" not in line.what.paths or not compiled(_KEPT).search(line.note):
        return ""
    ways = {value for test in line.what.tests for value in test.among}
    return "for keeping it hot" if ways and "keep hot" not in ways else ""
