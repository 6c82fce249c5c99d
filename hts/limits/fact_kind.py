"""What a fact is: its kind, its meaning, and what it belongs to."""

from __future__ import annotations

from typing import Literal, NamedTuple

from hts.syntax.formula import Kind

Per = Literal["joint", "side", "cycle"]


class FactKind(NamedTuple):
    """The one description of a fact: what it is, what it means, and what it belongs to.

    A fact per side can differ between the two parts joined; a formula that uses one is evaluated
    for each side. ``stated`` is what it is called on the job and the entry that states it, empty
    where no entry of its own does; ``worked_out`` is from what it is otherwise. ``kinds``: the
    kinds of weld that can have it, none named where all can; a ``seldom`` one is stated of few.
    """

    kind: Kind
    meaning: str
    per: Per
    stated: tuple[str, str] = ("", "")
    worked_out: str = ""
    kinds: tuple[str, ...] = ()
    seldom: bool = False
