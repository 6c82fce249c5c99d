"""`hts language-server`: what editors are told while somebody writes."""

from __future__ import annotations

import sys

import click


@click.command("language-server")
@click.option("--stdio", is_flag=True, help="Talk on standard input and output, as always.")
def command(stdio: bool) -> None:
    """Tell an editor findings, meanings and offers while a text is written.

    Editors start it by themselves, once they are set up as grammar/editors/README.md says; it talks
    the Language Server Protocol on standard input and output. Nothing is sent anywhere else.
    """
    from hts.editor.server import serve

    if sys.stdin.isatty():
        click.echo(
            "this is for editors: they start it by themselves; see grammar/editors/README.md",
            err=True,
        )
    serve()
