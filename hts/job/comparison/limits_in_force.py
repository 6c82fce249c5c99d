"""One side with its limits worked out: what stands in force where the text says `by rule`."""

from __future__ import annotations

from hts.base.quantities import Interval, Quantity
from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.job.comparison.canonical import exact
from hts.job.compiler.derivations import Derivation, Undecided, derivations, undecided
from hts.language.model import Spec
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.segments import Cool, Heat, Hold, Segment
from hts.language.vocabulary.types import ByRule, WidthValue

ValueInForce = Quantity | Interval | int


class LimitsInForce:
    """A specification and what governs it; worked out when asked for, once for like joints."""

    def __init__(self, spec: Spec) -> None:
        self.spec = spec
        self._case = Case(spec)

    def joint(self, name: str) -> Joint | None:
        """A joint that could be read whole."""
        found = self.spec.joints.get(name)
        return found if found is not None and found.sound else None

    def treatments(self, joint: Joint) -> list[Treatment]:
        """The bakes and cycles of a joint that could be read whole."""
        return list(self._case.treatments(joint))

    def limits(self, joint: Joint, treatment: Treatment | None = None) -> JointLimits:
        """What governs a joint, or one treatment of it."""
        return self._case.limits(joint, treatment)

    def demanded(
        self, joint: Joint, treatment: Treatment | None
    ) -> tuple[list[Derivation], list[Undecided]]:
        """The bounds in force on a joint, or on one treatment of it, and what is left open."""
        limits = self.limits(joint, treatment)
        subjects: tuple[str, ...] = ("joint", "preheat")
        if treatment is not None:
            subjects = ("bake",) if treatment.is_bake else ("cycle",)
        return derivations(limits, subjects), undecided(limits, subjects)

    def stands(self, address: str, path: str) -> ValueInForce | None:
        """The value in force at the address of a field that may say `by rule`; None where none
        is known, or where it is not one value."""
        name, *rest = address.split("/")
        joint = self.joint(name)
        if joint is None:
            return None
        limits = self.limits(joint)
        if path == "joint.governing thickness":
            return limits.thickness
        if path.endswith(" band"):
            return limits.band(path.rpartition(".")[2])
        if path == "joint.heating.zones":
            return limits.zone_count()
        if path == "preheat.at least":
            return limits.preheat()
        if path == "preheat.interpass.at most":
            return limits.interpass()
        if ".hold." in path and len(rest) == 3:
            return self._hold(joint, rest[0], rest[1], path)
        return None

    def _hold(self, joint: Joint, name: str, label: str, path: str) -> ValueInForce | None:
        treatment = next((t for t in self.treatments(joint) if t.name == name), None)
        if treatment is None:
            return None
        limits = self.limits(joint, treatment)
        holds = [segment for segment in treatment.entry.segments if isinstance(segment, Hold)]
        number = int(label.rpartition("-")[2])
        if number > len(holds):
            return None
        hold = holds[number - 1]
        return limits.hold_range(hold) if path.endswith("range") else limits.hold_time(hold)


def shown(value: ValueInForce) -> tuple[str, str]:
    """A value in force as text, and in its one spelling."""
    if isinstance(value, Interval):
        assert value.low is not None and value.high is not None
        return value.show(), f"{exact(value.low)} .. {exact(value.high)}"
    if isinstance(value, Quantity):
        return str(value), exact(value)
    return str(value), str(value)


def by_rule(joint: Joint, treatment: Treatment | None, quantity: str, direction: str) -> bool:
    """Whether the value of a quantity is taken from the rules, rather than stated."""
    if treatment is not None:
        return _treatment_by_rule(treatment, quantity, direction)
    heating, preheat = joint.entry.heating, joint.preheat
    if quantity == "governing thickness":
        return not isinstance(joint.entry.governing_thickness, Quantity)
    if quantity in ("soak band", "heated band", "gradient band"):
        stated = getattr(heating, quantity.replace(" ", "_"), None)
        return heating is not None and not isinstance(stated, WidthValue)
    if quantity == "zones":
        return heating is not None and isinstance(heating.zone_count, ByRule)
    if preheat is None:
        return False
    if quantity == "preheat":
        return not isinstance(preheat.at_least, Quantity)
    if quantity == "interpass":
        limit = preheat.interpass
        return limit is not None and not isinstance(limit.at_most, Quantity)
    return quantity == "preheat width" and not isinstance(preheat.width, WidthValue)


def _treatment_by_rule(treatment: Treatment, quantity: str, direction: str) -> bool:
    if quantity == "bake width":
        return not isinstance(getattr(treatment.entry, "width", None), WidthValue)
    return any(step_by_rule(segment, quantity, direction) for segment in treatment.entry.segments)


def step_by_rule(segment: Segment, quantity: str, direction: str) -> bool:
    """Whether a step takes a bound of a quantity from the rules, rather than stating it."""
    if isinstance(segment, Hold):
        if quantity in ("hold temperature", "bake temperature"):
            return not isinstance(segment.range, Interval)
        if quantity in ("hold time", "bake time"):
            return _unstated(segment, "longest" if direction == "maximum" else "time")
    elif isinstance(segment, Heat if quantity == "heating rate" else Cool) and quantity in (
        "heating rate",
        "cooling rate",
    ):
        return _unstated(segment, "slowest" if direction == "minimum" else "rate")
    return False


def _unstated(entry: Segment, field: str) -> bool:
    return not isinstance(getattr(entry, field), Quantity)
