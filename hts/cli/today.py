"""The day waivers and calibrations are judged on."""

from __future__ import annotations

import click


def day(today: str | None, option: str = "--today") -> str | None:
    """An ISO date as an option gives it; `now` is the clock's day, the one use of a clock there
    is.

    Raises click.BadParameter for what is no day: compared as text, it would judge wrongly.
    """
    if today is None:
        return None
    import datetime

    if today == "now":
        return datetime.date.today().isoformat()
    try:
        return datetime.date.fromisoformat(today).isoformat()
    except ValueError:
        raise click.BadParameter(
            f"{today!r} is not a day of the calendar; write 2026-11-20, or now",
            param_hint=option,
        ) from None
