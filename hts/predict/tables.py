"""An outlook as tables, for paper and pages."""

from __future__ import annotations

from typing import NamedTuple

from hts.predict.inputs import inputs_of
from hts.predict.outlook import Outlook
from hts.predict.powers import HEADS, cells, difference, powers_of
from hts.predict.report import DEPTH_WORDS, clock_words, spread_words, width_words
from hts.predict.scatter import SAMPLES, SEED
from hts.predict.told import LIMITS, MODEL, NOT_FOR


class Table(NamedTuple):
    """A table with its title; `below` are sentences that belong to it."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    below: tuple[str, ...] = ()


def tables_of(outlook: Outlook) -> list[Table]:
    """All there is to tell, but for the summary and the pictures; never without the last two."""
    setting = outlook.setting
    asked = (
        Table(
            "What is asked",
            ("Asked", "By", "Predicted", "Result"),
            tuple((a.asked, a.demanded.by, a.predicted, a.verdict) for a in outlook.answers),
        ),
    )
    instants = [
        Table(
            f"Soak band at the {instant.name}, °C, in brackets 5 to 95 %",
            ("Depth", "Clock", "Lowest along the band", "Highest along the band"),
            tuple(
                (DEPTH_WORDS[row.depth], clock_words(row.clock), spread_words(row.lowest),
                 spread_words(row.highest))
                for row in instant.rows
            ),
        )
        for instant in (outlook.ramp_end, outlook.hold_end)
    ]  # fmt: skip
    widths = (
        Table(
            "Which width would do",
            ("Bore", f"Narrowest heated band for {outlook.allowed:.0f} K below the setpoint"),
            tuple((width.state, width_words(width)) for width in outlook.widths),
            ("The width the rules ask for stays in force.",),
        ),
    )
    return [
        *(asked if outlook.answers else ()),
        *instants,
        Table(
            "Power by zone, kW: predicted, and the quick estimate heaters are sized by",
            HEADS,
            tuple(cells(one) for one in powers_of(outlook)),
            tuple(difference(setting)),
        ),
        Table(
            "Which input to settle first",
            ("Input", "Lowest moves at 5 %, K", "at 95 %, K"),
            tuple((s.what, f"{s.low:+.1f}", f"{s.high:+.1f}") for s in outlook.scatter.shifts),
        ),
        *(widths if outlook.widths else ()),
        Table(
            "What it rests on",
            ("Input", "Value", "Source", "May be off by"),
            tuple(tuple(one) for one in inputs_of(setting)),
            tuple(f"Assumed: {line}." for line in setting.assumed),
        ),
        Table(f"Limits of the model ({MODEL}; {SAMPLES} samples, seed {SEED})", (), (), LIMITS),
        Table("It must not be used", (), (), NOT_FOR),
    ]
