"""Limits and derived values of one joint, and of one treatment of it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

from hts.base.quantities import Interval, Quantity
from hts.checking.govern.facts import OfJoint, of_joint, total_width, with_treatment
from hts.checking.govern.sources import Authority
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.segments import Hold
from hts.language.vocabulary.types import ByRule
from hts.limits import Demand, Governing
from hts.limits.engine import Engine
from hts.limits.quantities import Direction
from hts.syntax.formula import Fact

Amount = Quantity | Fraction
#: The option of holding longer at a lower temperature.
LOWER_HOLD = "lower-temperature hold"


class Shared:
    """What governs joints that stand under the same authorities, each answer worked out once for
    the facts it rests on."""

    def __init__(self, authorities: Iterable[Authority]) -> None:
        self._engine = Engine(limit for authority in authorities for limit in authority.limits)

    def governing(
        self, facts: dict[str, dict[str, Fact]], options: Collection[str]
    ) -> Mapping[str, Governing]:
        """Everything that is limited, by quantity; one for all joints of equal facts."""
        if LOWER_HOLD in options:
            facts = _lowered(facts, self._engine.demands(facts))
        return self._engine.demands(facts, options)


class Derived(NamedTuple):
    """A value the rules give: what it is, and the demand that sets it."""

    value: Amount
    demand: Demand
    direction: str  # "minimum", "maximum" or "exactly"

    @property
    def formula(self) -> str:
        """The formula with its numbers put in."""
        return self.demand.shown(self.direction)  # type: ignore[arg-type]


class JointLimits:
    """What books and procedures demand of a joint (and of one treatment of it).

    Worked out once, when first asked for.
    """

    def __init__(
        self,
        joint: Joint,
        treatment: Treatment | None,
        authorities: Sequence[Authority],
        shared: Shared | None = None,
        alone: JointLimits | None = None,
    ) -> None:
        """``shared``: of the same authorities, looked up and added to. ``alone``: what governs the
        joint without a treatment, where that is known."""
        self.joint = joint
        self.treatment = treatment
        self.authorities = authorities
        self._shared = Shared(authorities) if shared is None else shared
        self._alone = alone
        self._bands: dict[str, Quantity | None] = {}

    @cached_property
    def facts(self) -> dict[str, dict[str, Fact]]:
        return with_treatment(self.facts_of_joint, self.joint, self.treatment)

    @cached_property
    def facts_of_joint(self) -> OfJoint:
        """Those that are the same for each of its treatments."""
        return self._alone.facts_of_joint if self._alone is not None else of_joint(self.joint)

    @cached_property
    def options(self) -> dict[str, Entry]:
        """The options of books the text makes use of, with the entries that say so."""
        cycle = self.treatment.cycle if self.treatment else None
        if cycle is None:
            return {}
        entries = {
            LOWER_HOLD: cycle.lower_temperature,
            "thin-wall hold": cycle.thin_wall,
            "code exemption": cycle.not_required,
        }
        return {option: entry for option, entry in entries.items() if entry is not None}

    @cached_property
    def governing(self) -> Mapping[str, Governing]:
        """Everything that is limited, by quantity."""
        return self._shared.governing(self.facts, self.options)

    def of(self, quantity: str) -> Governing | None:
        return self.governing.get(quantity)

    def derived(self, quantity: str, direction: str) -> Derived | None:
        """The strictest bound of a quantity and where it comes from."""
        governing = self.governing.get(quantity)
        demand = governing.setter(direction) if governing else None  # type: ignore[arg-type]
        if demand is None:
            return None
        return Derived(demand.bounds[direction], demand, direction)  # type: ignore[index]

    def printed(
        self, value: Quantity, quantity: str, direction: Direction, at: Quantity | None = None
    ) -> Quantity:
        """The value with the figure beside it that governing codes print in the other system; of
        a rate, those in force at a temperature."""
        governing = self.governing.get(quantity)
        made = governing.printed(value, direction, at) if governing is not None else value
        return made if isinstance(made, Quantity) else value

    # The values in force: stated where the text states them, else derived --------------------

    @cached_property
    def thickness(self) -> Quantity | None:
        """Governing thickness; the largest where authorities define it differently."""
        stated = self.joint.entry.governing_thickness
        if isinstance(stated, Quantity):
            return stated
        return _quantity(self.derived("governing thickness", "exactly"))

    def band(self, name: str) -> Quantity | None:
        """Total width of the ``soak band``, ``heated band`` or ``gradient band``."""
        if name not in self._bands:
            heating = self.joint.entry.heating
            stated = getattr(heating, name.replace(" ", "_")) if heating else None
            if stated is not None and not isinstance(stated, ByRule):
                self._bands[name] = total_width(stated, self.thickness)
            else:
                self._bands[name] = _quantity(self.derived(name, "minimum"))
        return self._bands[name]

    def hold_range(self, hold: Hold) -> Interval | None:
        """Range of a hold."""
        if isinstance(hold.range, Interval):
            return hold.range
        word = "bake temperature" if self._is_bake else "hold temperature"
        low, high = self.derived(word, "minimum"), self.derived(word, "maximum")
        bottom, top = _quantity(low), _quantity(high)
        if bottom is None or top is None or bottom > top:
            return None
        return Interval(bottom, top)

    def hold_time(self, hold: Hold) -> Quantity | None:
        """Shortest time of a hold."""
        if isinstance(hold.time, Quantity):
            return hold.time
        word = "bake time" if self._is_bake else "hold time"
        return _quantity(self.derived(word, "minimum"))

    def preheat(self) -> Quantity | None:
        """Lowest preheat."""
        entry = self.joint.preheat
        stated = entry.at_least if entry else None
        if isinstance(stated, Quantity):
            return stated
        return _quantity(self.derived("preheat", "minimum"))

    def interpass(self) -> Quantity | None:
        """Highest interpass temperature."""
        entry = self.joint.preheat
        stated = entry.interpass.at_most if entry and entry.interpass else None
        if isinstance(stated, Quantity):
            return stated
        return _quantity(self.derived("interpass", "maximum"))

    def zone_count(self) -> int | None:
        """Number of control zones asked for."""
        heating = self.joint.entry.heating
        stated = heating.zone_count if heating else None
        if isinstance(stated, int):
            return stated
        found = self.derived("zones", "minimum")
        return None if found is None else int(Fraction(_number(found.value)))

    @property
    def _is_bake(self) -> bool:
        return self.treatment is not None and self.treatment.is_bake


def _lowered(
    facts: dict[str, dict[str, Fact]], usual: Mapping[str, Governing]
) -> dict[str, dict[str, Fact]]:
    """The facts with how far the hold stated lies below the least without the option; one at
    that least is not lowered, and the usual time holds."""
    governing = usual.get("hold temperature")
    least = governing.minimum if governing is not None else None
    made = {}
    for side, known in facts.items():
        stated = known.get("hold_minimum")
        if isinstance(stated, Quantity) and isinstance(least, Quantity) and stated < least:
            known = {**known, "lowered_by": least - stated}
        made[side] = known
    return made


def _quantity(found: Derived | None) -> Quantity | None:
    return found.value if found is not None and isinstance(found.value, Quantity) else None


def _number(amount: Amount) -> Fraction:
    return amount.value if isinstance(amount, Quantity) else amount
