"""What the user says about a log where the log itself leaves it open."""

from __future__ import annotations

from typing import NamedTuple


class Options(NamedTuple):
    """Each is None where nothing is said; then the log says it, or the reader asks.

    | field      | command line   | meaning                                                     |
    |------------|----------------|-------------------------------------------------------------|
    | unit       | `--unit`       | degC, degF or K, of columns that state none                 |
    | time       | `--time`       | name of the time column, or two as "Date, Time"             |
    | time_unit  | `--time-unit`  | s, ms, min, h, d, hh:mm, mm:ss, serial (days of a           |
    |            |                | spreadsheet) or unix (s since 1970)                         |
    | day_order  | `--day-order`  | "day" or "month", which comes first in 03/04/2026           |
    | zone       | `--zone`       | "Europe/Oslo" or "+01:00", of clock times that state none   |
    | separator  | `--separator`  | "," ";" "tab" "|" or "blanks"                               |
    | decimal    | `--decimal`    | "." or ","                                                  |
    | mapping    | `--columns`    | path of the YAML map of columns                             |
    | events     | `--events`     | path of the YAML list of events                             |
    """

    unit: str | None = None
    time: str | None = None
    time_unit: str | None = None
    day_order: str | None = None
    zone: str | None = None
    separator: str | None = None
    decimal: str | None = None
    mapping: str | None = None
    events: str | None = None

    def over(self, other: Options) -> Options:
        """These, and those of `other` where these say nothing."""
        return Options(
            *(mine if mine is not None else its for mine, its in zip(self, other, strict=True))
        )


#: Nothing is said.
NOTHING = Options()
