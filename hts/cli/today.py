"""The day waivers and calibrations are judged on."""

from __future__ import annotations

import sys

from hts.checking.configuration import Configuration

HELP = (
    "Date on which waivers and calibrations are judged; without it `today` of hts.toml, else the "
    "clock's day."
)


def clock() -> str:
    """The clock's day as an ISO date: the one use of a clock there is."""
    import datetime

    return datetime.date.today().isoformat()


def day(today: str | None, option: str = "--today") -> str | None:
    """An ISO date as an option gives it, `now` for the clock's day; None where it gives none.

    Raises click.BadParameter for what is no day: compared as text, it would judge wrongly.
    """
    if today is None:
        return None
    import datetime

    if today == "now":
        return clock()
    try:
        return datetime.date.fromisoformat(today).isoformat()
    except ValueError:
        import click

        raise click.BadParameter(
            f"{today!r} is not a day of the calendar; write 2026-11-20, or now",
            param_hint=option,
        ) from None


def judged_on(today: str | None, configured: Configuration) -> str:
    """The day to judge on: that of the option, of the configuration, or the clock's.

    Says on the terminal which day that is where neither the command nor a file names it.
    """
    named = day(today) or configured.today
    if named is not None:
        return named
    found = clock()
    if sys.stderr.isatty():
        print(
            f"waivers and calibrations are judged on {found}, the day of the clock; "
            "--today says another",
            file=sys.stderr,
        )
    return found
