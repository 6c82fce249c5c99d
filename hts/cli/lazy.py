"""Groups of commands that import a command only when it is asked for."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from typing import Any

import click

from hts.cli.terminal import reader_gone

#: Package as it is imported -> as it is installed, and the extra that brings it.
_EXTRAS = {
    "numpy": ("numpy", "record"),
    "contourpy": ("contourpy", "predict"),
    "scipy": ("scipy", "predict"),
    "polars": ("polars", "record"),
    "yaml": ("pyyaml", "record"),
    "drawsvg": ("drawsvg", "paper"),
    "fontTools": ("fonttools", "paper"),
    "segno": ("segno", "paper"),
    "typst": ("typst", "paper"),
    "xlsxwriter": ("xlsxwriter", "paper"),
    "lsprotocol": ("pygls", "editor"),
    "pygls": ("pygls", "editor"),
}


def lazy_group(commands: Mapping[str, str]) -> type[click.Group]:
    """A kind of group; `commands` gives for each name the module below hts.cli that holds it."""

    class Lazy(click.Group):
        def list_commands(self, ctx: click.Context) -> list[str]:
            return list(commands)

        def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
            module = commands.get(cmd_name)
            if module is None:
                return None
            command: click.Command = import_module(f"hts.cli.{module}").command
            return command

        def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
            """Every command with the whole first sentence of its help."""
            rows = []
            for name in self.list_commands(ctx):
                command = self.get_command(ctx, name)
                assert command is not None
                first = (command.help or "").split("\n\n")[0]
                rows.append((name, " ".join(first.split())))
            with formatter.section("Commands"):
                formatter.write_dl(rows)

        def invoke(self, ctx: click.Context) -> Any:
            try:
                return super().invoke(ctx)
            except ModuleNotFoundError as error:
                missing = _EXTRAS.get((error.name or "").partition(".")[0])
                if missing is None:
                    raise
                package, extra = missing
                raise click.ClickException(
                    f'{package} is not installed; run: pip install "hts[{extra}]"'
                ) from None
            except BrokenPipeError:
                reader_gone()

    return Lazy
