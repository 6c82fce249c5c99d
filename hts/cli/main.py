"""The `hts` command; each sub-command is imported only when it is run."""

from __future__ import annotations

import gc
import os
import sys
from importlib import import_module
from typing import Any

import click

from hts import __version__

#: Command, module below hts.cli that holds a click command of that name, one line of help.
COMMANDS = {
    "check": "check",
    "compile": "compile",
    "fmt": "fmt",
    "rules": "rules",
    "books": "books",
    "why": "why",
}


class _Lazy(click.Group):
    """Imports a command's module when the command is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        module = COMMANDS.get(cmd_name)
        if module is None:
            return None
        command: click.Command = import_module(f"hts.cli.{module}").command
        return command

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except BrokenPipeError:
            # The reader of the output has gone; what is left of it must go somewhere.
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            sys.exit(2)


@click.group(cls=_Lazy, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, "-V", "--version", prog_name="hts")
def cli() -> None:
    """Check specifications of preheat, hydrogen bake-out and post-weld heat treatment, and compile
    them into the paper that goes to the pipe."""


def main() -> None:
    """Entry point: exit 0 clean, 1 findings, 2 could not run (or was interrupted)."""
    # A check leaves next to no cycles behind; looking for them as often as usual only costs time.
    gc.set_threshold(50_000, 20, 20)
    # Left to itself click exits 1 for what could not run, which here means findings.
    try:
        sys.exit(cli.main(prog_name="hts", standalone_mode=False))
    except click.ClickException as error:
        error.show()
    except click.Abort:
        click.echo("interrupted", err=True)
    sys.exit(2)
