"""Where the program begins and ends: streams, signals, exit codes.

A check without options is what editors, hooks and CI ask for over and over: it begins without the
command line's library, whose import takes as long as checking several files.
"""

from __future__ import annotations

import gc
import os
import signal
import sys
from typing import Any, NoReturn

#: What a shell tells of a program that a signal ended (POSIX): 128 and the signal's number.
INTERRUPTED = 130
TERMINATED = 143


def main() -> NoReturn:
    """Entry point: exit 0 clean, 1 findings, 2 could not run, 130 interrupted, 143 terminated."""
    # A check leaves few cycles behind; looking for them as often as usual only costs time.
    gc.set_threshold(200_000, 20, 20)
    _open_streams()
    signal.signal(signal.SIGTERM, _terminated)
    paths = _paths_alone(sys.argv[1:])
    if paths is None:
        _by_options()
    from hts.cli.checked import Refused, check_alone

    try:
        sys.exit(check_alone(paths, keeps="--no-cache" not in sys.argv))
    except (Refused, ModuleNotFoundError):
        # What is wrong, or not installed, is told as with options.
        _by_options()
    except KeyboardInterrupt:
        print("\ninterrupted", file=sys.stderr)
        sys.exit(INTERRUPTED)
    except BrokenPipeError:
        from hts.cli.terminal import reader_gone

        reader_gone()
    except OSError as error:
        _cannot_write(error)
    except Exception as error:
        print(_fault(error), file=sys.stderr)
    sys.exit(2)


def __getattr__(name: str) -> Any:
    """The group of all commands, imported when it is first asked for."""
    if name == "cli":
        from hts.cli.commands import cli

        return cli
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def _paths_alone(arguments: list[str]) -> tuple[str, ...] | None:
    """The paths of a check that says nothing but paths, and whether outcomes are kept.

    None for any other command, where a shell asks for completion, and on Windows, where patterns
    in paths are still to be replaced.
    """
    if arguments[:1] != ["check"] or os.name == "nt" or "_HTS_COMPLETE" in os.environ:
        return None
    paths = tuple(each for each in arguments[1:] if each != "--no-cache")
    return paths if paths and not any(each.startswith("-") for each in paths) else None


def _by_options() -> NoReturn:
    """Any command, its options read."""
    import click

    from hts.cli.commands import cli

    # Left to itself click exits 1 for what could not run, which here means findings.
    try:
        sys.exit(cli.main(prog_name="hts", standalone_mode=False))
    except click.ClickException as error:
        error.show()
    except click.Abort:
        click.echo("interrupted", err=True)
        sys.exit(INTERRUPTED)
    except OSError as error:
        _cannot_write(error)
    except Exception as error:
        click.echo(_fault(error), err=True)
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


def _cannot_write(error: OSError) -> None:
    # What is done with a named file is told where it is done; this is the output itself.
    if error.filename is not None or error.strerror is None:
        print(_fault(error), file=sys.stderr)
    else:
        print(f"cannot write the output: {error.strerror.lower()}", file=sys.stderr)


def _fault(error: Exception) -> str:
    """One line about a fault of this program; with HTS_DEBUG set, all of it."""
    if os.environ.get("HTS_DEBUG"):
        raise error
    from hts.checking.checker.fault import fault

    return fault(error)


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
