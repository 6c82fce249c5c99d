"""How a stream is written to: in colour or not, and how wide."""

from __future__ import annotations

import os
from typing import TextIO

import click

#: What the user has said with --color; the last one counts.
_said = ["auto"]


def _choose(ctx: click.Context, param: click.Parameter, word: str | None) -> None:
    _said.append(word or "auto")
    # Without it the colours would be taken out again where the stream is no terminal.
    ctx.color = {"always": True, "never": False}.get(_said[-1])


colour_option = click.option(
    "--color",
    type=click.Choice(["always", "auto", "never"]),
    default=None,
    expose_value=False,
    is_eager=True,
    callback=_choose,
    help="Colours: auto has them on a terminal, unless NO_COLOR is set.",
)


def coloured(stream: TextIO) -> bool:
    """On a terminal that can, unless the user has said no (NO_COLOR, as no-color.org has it)."""
    if _said[-1] != "auto":
        return _said[-1] == "always"
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def width_of(stream: TextIO) -> int | None:
    """Characters in a line of a terminal (COLUMNS where that is set); None where the text goes to
    a file or another program, which search it line by line."""
    if not stream.isatty():
        return None
    columns = os.environ.get("COLUMNS", "")
    if columns.isdecimal() and int(columns):
        return int(columns)
    try:
        return os.get_terminal_size(stream.fileno()).columns
    except (OSError, ValueError):
        return None
