"""The day waivers and calibrations are judged on."""

from __future__ import annotations


def day(today: str | None) -> str | None:
    """An ISO date as given; `now` is the clock's day, the only use of a clock there is."""
    if today != "now":
        return today
    import datetime

    return datetime.date.today().isoformat()
