"""What commands share that depend on a configuration."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import click

from hts.checking.configuration import Configuration, ConfigurationError, load
from hts.checking.report.terminal import printable_lines

F = TypeVar("F", bound=Callable[..., Any])

_config = click.option(
    "--config",
    metavar="PATH",
    default=None,
    help="Configuration to use; by default the nearest hts.toml, or pyproject.toml with "
    "[tool.hts].",
)


def _allow(ctx: click.Context, param: click.Parameter, packs: tuple[str, ...]) -> None:
    if packs:
        from hts.checking.configuration.allowed import allow

        allow(*packs)


def _none(ctx: click.Context, param: click.Parameter, asked: bool) -> None:
    if asked:
        from hts.checking.configuration.allowed import run_none

        run_none()


_allow_pack = click.option(
    "--allow-pack",
    metavar="NAME",
    multiple=True,
    expose_value=False,
    is_eager=True,
    callback=_allow,
    help="Let a rule pack of this name run where settings name it; may be repeated.",
)
_no_packs = click.option(
    "--no-packs",
    is_flag=True,
    expose_value=False,
    is_eager=True,
    callback=_none,
    help="Run no rule pack, whatever settings name.",
)


def config_alone(command: F) -> F:
    """The option of a command that reads settings in which no rule pack has a part."""
    return _config(command)


def config_option(command: F) -> F:
    """The options of every command that reads settings."""
    return _config(_allow_pack(_no_packs(command)))


def configuration(path: str, explicit: str | None) -> Configuration:
    """What is configured for a path; ends the program where that cannot be used."""
    try:
        return load(path, explicit)
    except ConfigurationError as error:
        raise cannot_use(error) from None


def cannot_use(error: ConfigurationError) -> click.ClickException:
    """The exception that tells of it and ends the program with 2."""
    return click.ClickException(printable_lines(str(error)).rstrip("\n"))
