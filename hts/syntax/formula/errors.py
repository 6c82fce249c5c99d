"""What can be wrong with a formula, and what can be missing when it is evaluated."""

from __future__ import annotations

from collections.abc import Iterable


class FormulaError(ValueError):
    """A formula that cannot be read, does not fit in its units, or has no value.

    `start` and `end` are the offsets, in the formula's text, of the sub-expression at fault;
    `message` says what is wrong with it and `help` what to write instead ("" when nothing is
    near enough).
    """

    def __init__(self, start: int, end: int, message: str, help: str = "") -> None:
        super().__init__(f"{message}; {help}" if help else message)
        self.start = start
        self.end = end
        self.message = message
        self.help = help


class UnknownFact(LookupError):
    """The facts given leave the formula undecided; `names` are all the ones it still needs."""

    def __init__(self, names: Iterable[str]) -> None:
        self.names = tuple(dict.fromkeys(names))
        super().__init__(f"not known: {', '.join(self.names)}")
