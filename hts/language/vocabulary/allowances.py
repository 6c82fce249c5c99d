"""What the temperatures of a treatment may differ by, and for how long they may stray."""

from __future__ import annotations

from hts.base.quantities import DIFFERENCE, LENGTH, RATIO, TEMPERATURE, TIME, Interval, Quantity
from hts.language.vocabulary.declare import Entry, clause, flag, value
from hts.language.vocabulary.types import Amount, Choice, Range

#: Which thermocouples a mean is taken of.
MEANS = ("all", "controlling", "highest and lowest")


class Limit(Entry):
    """A temperature difference that is allowed, and over what distance."""

    at_most: Quantity | None = clause(
        "at most", Amount(DIFFERENCE, usual="5 .. 200 K"), "Greatest difference", required=True
    )
    within: Quantity | None = clause(
        "within",
        Amount(LENGTH, usual="0.4 .. 6 m"),
        "Over this distance",
        example="4.6 m",
        # The same difference over a longer distance asks for more.
        stricter="higher",
    )


class HeatingSpread(
    Limit, words="heating spread", example="heating spread at most 140 K within 4.6 m"
):
    """Difference between thermocouples allowed while heating and cooling."""


class HoldingSpread(Limit, words="holding spread", example="holding spread at most 25 K"):
    """Difference between thermocouples allowed during the hold."""


class Share(Entry, words="share of hold", example="share of hold at least 50 % at heated edge"):
    """How hot a place beside the weld is during the hold, as a share of the lowest reading of the
    soak band then, both in degC."""

    told_by = ("place_",)
    one_of = ("least", "most")
    least: Quantity | None = clause(
        "at least", Amount(RATIO, usual="10 .. 100 %"), "Least share", example="50 %"
    )
    most: Quantity | None = clause(
        "at most", Amount(RATIO, usual="10 .. 100 %"), "Greatest share", example="60 %"
    )
    place_: str | None = clause(
        "at",
        Choice("soak edge", "heated edge", "gradient edge"),
        "Place where a thermocouple shows it",
        required=True,
        example="heated edge",
    )


class MeanOfHold(Entry, words="mean of hold", example="mean of hold 695 .. 715 degC of all"):
    """Range of the mean of several thermocouples in the hold. It counts besides the range of the
    hold, which each of them keeps."""

    told_by = ("of",)
    range: Interval = value(Range(TEMPERATURE, usual="150 .. 1150 degC"), "Range the mean stays in")
    of: str | None = clause(
        "of",
        Choice(*MEANS),
        "Of which required thermocouples",
        required=True,
        example="all",
    )

    @property
    def ends(self) -> tuple[Quantity, Quantity]:
        """The lowest and the highest the mean may be."""
        assert self.range.low is not None and self.range.high is not None
        return self.range.low, self.range.high


class Tolerated(Entry):
    """A time that is tolerated; all times added, unless it says each."""

    at_most: Quantity | None = clause(
        "at most",
        Amount(TIME, usual="0, 2 .. 60 min"),
        "Longest time",
        required=True,
        example="10 min",
    )
    each: bool = flag("each", "Each time")
    total: bool = flag("in total", "All times added")


class Excursion(Tolerated, words="excursion", example="excursion at most 10 min in total"):
    """Time outside the hold range that is tolerated; none where nothing is stated."""


class RateExcursion(
    Tolerated, words="rate excursion", example="rate excursion at most 10 min each"
):
    """Time a rate of heating or cooling may be over its limit; none where nothing is stated."""


class GuardBand(Entry, words="guard band", example="guard band expanded uncertainty"):
    """Part of the range kept free for measuring uncertainty; none unless the job says so."""

    # Owners guard the hold of a treatment; the wide range of a bake where they say so.
    only_named = ("bake",)

    rule: str = value(
        Choice("none", "one-sided 95 %", "expanded uncertainty", ranked=True), "Decision rule"
    )
