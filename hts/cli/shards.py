"""Options of a check that is spread over several machines."""

from __future__ import annotations

import re

import click

from hts.base.text.reading import LARGEST_REPORT, Unreadable, read_bytes
from hts.checking.checker.results import Results, Shard


def shard(ctx: click.Context, param: click.Parameter, text: str | None) -> Shard | None:
    """The shard an option names, as 2/4."""
    if text is None:
        return None
    match = re.fullmatch(r"(\d{1,4})/(\d{1,4})", text, re.ASCII)
    if match is None or not 1 <= int(match[1]) <= int(match[2]):
        raise click.BadParameter(
            f"{text!r} is not a shard; write 2/4 for the second of four", ctx, param
        )
    return Shard(int(match[1]), int(match[2]))


def joined_reports(paths: tuple[str, ...]) -> Results:
    """The results of all shards, from their JSON reports. Raises click.ClickException."""
    from hts.checking.checker.shards import CannotJoin, joined
    from hts.checking.report.terminal import printable

    reports = {}
    for path in dict.fromkeys(paths):
        try:
            reports[path] = read_bytes(path, LARGEST_REPORT)
        except Unreadable as error:
            raise click.ClickException(f"cannot read {printable(path)}: {error}") from None
    try:
        return joined(reports)
    except CannotJoin as error:
        raise click.ClickException(printable(str(error))) from None
