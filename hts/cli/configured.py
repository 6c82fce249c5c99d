"""What commands share that depend on a configuration."""

from __future__ import annotations

import click

from hts.checking.configuration import Configuration, ConfigurationError, load
from hts.checking.report.terminal import printable_lines

config_option = click.option(
    "--config",
    metavar="PATH",
    default=None,
    help="Configuration to use; by default the nearest hts.toml, or pyproject.toml with "
    "[tool.hts].",
)


def configuration(path: str, explicit: str | None) -> Configuration:
    """What is configured for a path; ends the program where that cannot be used."""
    try:
        return load(path, explicit)
    except ConfigurationError as error:
        raise cannot_use(error) from None


def cannot_use(error: ConfigurationError) -> click.ClickException:
    """The exception that tells of it and ends the program with 2."""
    return click.ClickException(printable_lines(str(error)).rstrip("\n"))
