"""What is wrong with a text that should be a quantity."""

from __future__ import annotations

from hts.base.quantities.dimensions import Dimension
from hts.base.quantities.units import symbols_of


class QuantityError(ValueError):
    """The text is not a quantity of the dimension asked for.

    `problem` is "no unit", "unknown unit", "wrong dimension", "bad number" or "decimal comma".
    `part` is the piece of `text` at fault and `suggestion` what to write in its place, None when
    nothing is near enough. `units` are the symbols that would fit. The message says all of it.
    """

    def __init__(
        self,
        problem: str,
        text: str,
        part: str,
        dimension: Dimension,
        suggestion: str | None = None,
        reason: str = "",
    ) -> None:
        self.problem = problem
        self.text = text
        self.part = part
        self.dimension = dimension
        self.suggestion = suggestion
        self.reason = reason
        self.units = symbols_of(dimension)
        super().__init__(self._message())

    def _message(self) -> str:
        fitting = f"{self.dimension.with_article} is written {_choice(self.units)}"
        if self.problem == "no unit":
            return f"{self.text!r} has no unit; {fitting}"
        if self.suggestion is not None:
            fitting = f"did you mean {self.suggestion!r}?"
        if self.problem == "unknown unit":
            return f"{self.part!r} is not a unit; {self.reason or fitting}"
        if self.problem == "wrong dimension":
            return f"{self.text!r} is not {self.dimension.with_article}; {fitting}"
        meant = f"; {fitting}" if self.suggestion is not None else ""
        return f"cannot read {self.part!r}: {self.reason}{meant}"


def _choice(units: tuple[str, ...]) -> str:
    if not units:
        return "without a unit"
    *before, last = units
    return f"in {', '.join(before)} or {last}" if before else f"in {last}"
