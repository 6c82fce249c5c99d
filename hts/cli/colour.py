"""The option about colours."""

from __future__ import annotations

import click

from hts.cli.terminal import said


def _choose(ctx: click.Context, param: click.Parameter, word: str | None) -> None:
    said.append(word or "auto")
    # Without it the colours would be taken out again where the stream is no terminal.
    ctx.color = {"always": True, "never": False}.get(said[-1])


colour_option = click.option(
    "--color",
    type=click.Choice(["always", "auto", "never"]),
    default=None,
    expose_value=False,
    is_eager=True,
    callback=_choose,
    help="Colours: auto has them on a terminal, unless NO_COLOR is set.",
)
