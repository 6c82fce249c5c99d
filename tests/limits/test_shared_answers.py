"""What is shared between joints of some equal facts is what each would have been answered alone."""

from __future__ import annotations

import random
from collections.abc import Mapping
from functools import cache
from typing import Any

from hts.base.quantities import Quantity
from hts.checking.checker import Case
from hts.language.model import Spec
from hts.limits import Governing, demands
from hts.limits import engine as engine_of
from hts.limits.engine import Engine
from hts.syntax.formula import Fact
from tests.specs.found import SPECS
from tests.texts import examples

Sides = dict[str, dict[str, Fact]]
DIRECTIONS: tuple[Any, ...] = ("minimum", "maximum", "exactly")


def shown(found: Mapping[str, Governing]) -> Any:
    """All that anybody sees of answers."""
    return {
        quantity: (
            [demand(each) for each in governing.demands],
            [demand(each) for each in governing.displaced],
            [(u.limit.id, u.side, u.names, u.reason) for u in governing.unanswered],
        )
        for quantity, governing in found.items()
    }


def demand(found: Any) -> Any:
    limit = found.limit
    return (
        (limit.source.name, limit.id, limit.system, limit.status, found.side),
        {
            way: (str(bound), str(found.bound_for(way, bound)))
            for way, bound in found.bounds.items()
        },
        (str(found.above), str(found.within)),
        [found.shown(way) for way in DIRECTIONS],
        [(name, str(found.facts.get(name))) for name in limit.where],
    )


@cache
def cases() -> list[tuple[list[Any], Sides, tuple[str, ...]]]:
    """The limits, facts and options of every treatment and joint among the good specifications."""
    made = []
    for path in sorted(SPECS.glob("*.hts")):
        loader = examples()
        case = Case(Spec(loader.read(str(path)), loader))
        limits = [limit for each in case.authorities for limit in each.limits]
        for joint in list(case.joints())[:4]:
            for treatment in (None, *case.treatments(joint)):
                known = case.limits(joint, treatment)
                made.append((limits, known.facts, tuple(known.options)))
    return made


def varied(facts: Sides, others: Sides, chance: random.Random) -> Sides:
    """The facts with one of them gone, in another unit, taken from another joint, or on one side
    alone."""
    made = {side: dict(known) for side, known in facts.items()}
    name = chance.choice(sorted({name for known in made.values() for name in known}))
    donor = next(iter(others.values()), {})
    for side in made if chance.random() < 0.7 else [chance.choice(sorted(made))]:
        fact = made[side].get(name)
        way = chance.randrange(3)
        if way == 0 or fact is None:
            made[side].pop(name, None)
        elif way == 1 and isinstance(fact, Quantity) and fact.unit.partner:
            made[side][name] = fact.in_unit(fact.unit.partner)
        elif name in donor:
            made[side][name] = donor[name]
    return made


def test_shared_answers_are_those_of_each_alone() -> None:
    chance = random.Random(17)
    engines: dict[int, Engine] = {}
    found = cases()
    shared = 0
    for number, (limits, facts, options) in enumerate(found):
        key = hash(tuple(map(id, limits)))
        engine = engines.setdefault(key, Engine(limits))
        for round_ in range(4):
            asked = varied(facts, chance.choice(found)[1], chance) if round_ else facts
            before = len(engine.known)
            together = engine.demands(asked, options)
            shared += len(together) - (len(engine.known) - before)
            assert shown(together) == shown(demands(limits, asked, options)), number
    # Otherwise nothing was tried.
    assert shared > 1000


def test_only_a_single_joint_has_nobody_to_share_with() -> None:
    limits, facts, _ = cases()[0]
    engine = Engine(limits)
    engine.demands(facts)
    assert engine.reads("hold time") is None
    engine.demands(facts)
    assert engine.reads("hold time")


def test_what_is_worked_out_late_is_of_its_own_joint(monkeypatch) -> None:
    """Answers that are kept are forgotten now and then; what was not asked yet of a joint from
    before is not taken for that of one from after."""
    monkeypatch.setattr(engine_of, "_MOST_KEPT", 40)
    chance = random.Random(18)
    found = cases()
    limits = found[0][0]
    engine = Engine(limits)
    asked = [facts for _, facts, _ in found]
    chance.shuffle(asked)
    waiting = []
    for each in asked:
        waiting.append(engine.demands(each))
        for quantity in list(waiting[-1])[::2]:
            waiting[-1][quantity]
    late = [shown(answers) for answers in waiting]
    assert late == [shown(demands(limits, each)) for each in asked]
