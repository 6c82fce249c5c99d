"""The `hts` command; each sub-command is imported only when it is run."""

from __future__ import annotations

import gc
import os
import signal
import sys
from typing import NoReturn

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


#: What a shell tells of a program that a signal ended (POSIX): 128 and the signal's number.
INTERRUPTED = 130
TERMINATED = 143


def main() -> NoReturn:
    """Entry point: exit 0 clean, 1 findings, 2 could not run, 130 interrupted, 143 terminated."""
    # A check leaves next to no cycles behind; looking for them as often as usual only costs time.
    gc.set_threshold(50_000, 20, 20)
    _open_streams()
    signal.signal(signal.SIGTERM, _terminated)
    # Left to itself click exits 1 for what could not run, which here means findings.
    try:
        sys.exit(cli.main(prog_name="hts", standalone_mode=False))
    except click.ClickException as error:
        error.show()
    except click.Abort:
        click.echo("interrupted", err=True)
        sys.exit(INTERRUPTED)
    except OSError as error:
        # What is done with a named file is told where it is done; this is the output itself.
        if error.filename is not None or error.strerror is None:
            _fault(error)
        else:
            click.echo(f"cannot write the output: {error.strerror.lower()}", err=True)
    except Exception as error:
        _fault(error)
    sys.exit(2)


def _open_streams() -> None:
    """Gives each closed stream somewhere to go, and lets none fail for a letter it cannot write."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        stream = getattr(sys, name)
        if stream is None:  # closed by the caller, who wants the exit code alone
            setattr(sys, name, open(os.devnull, mode))  # noqa: SIM115
        elif mode == "w" and hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")


def _terminated(number: int, frame: object) -> NoReturn:
    # An exception, so that what was begun is taken away on the way out.
    sys.exit(TERMINATED)


def _fault(error: Exception) -> None:
    """One line about a fault of this program; with HTS_DEBUG set, all of it."""
    if os.environ.get("HTS_DEBUG"):
        raise error
    from hts.checking.checker.fault import fault

    click.echo(fault(error), err=True)


def start() -> NoReturn:
    """`main` in a process of its own, which then ends at once: to take apart all that a check has
    read takes the interpreter longer than several checks."""
    try:
        main()
    except SystemExit as error:
        code = error.code if isinstance(error.code, int) else int(error.code is not None)
    try:
        sys.stdout.flush()
        sys.stderr.flush()
    except (OSError, ValueError):
        code = 2
    os._exit(code)
