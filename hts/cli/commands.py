"""The `hts` command; each sub-command is imported only when it is run."""

from __future__ import annotations

import click

from hts import __version__
from hts.cli.lazy import lazy_group

#: Command, and the module below hts.cli that holds it as `command`.
COMMANDS = {
    "new": "new",
    "check": "check",
    "compile": "compile",
    "predict": "predict",
    "fingerprint": "fingerprint",
    "fmt": "fmt",
    "language": "language",
    "rules": "rules",
    "books": "books",
    "why": "why",
    "weld-list": "weld_list",
    "plan": "plan",
    "record": "record",
    "config": "config",
    "diff": "diff",
    "language-server": "language_server",
    "view": "view",
}


@click.group(
    cls=lazy_group(COMMANDS),
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="A shell completes commands, rules and books after: eval "
    '"$(_HTS_COMPLETE=bash_source hts)" (or zsh_source; in fish: '
    "_HTS_COMPLETE=fish_source hts | source).",
)
@click.version_option(__version__, "-V", "--version", prog_name="hts")
def cli() -> None:
    """Check specifications of preheat, hydrogen bake-out and post-weld heat treatment, and compile
    them into the paper that goes to the pipe."""
