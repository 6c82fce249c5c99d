"""`hts record`: recorded runs, held against their specification."""

from __future__ import annotations

import click

from hts.cli.lazy import lazy_group

#: Command, and the module below hts.cli that holds it as `command`.
COMMANDS = {
    "check": "record.check",
    "simulate": "record.simulate",
    "watch": "record.watch",
}


@click.group("record", cls=lazy_group(COMMANDS))
def command() -> None:
    """Judge, follow or simulate recorded runs."""
