"""`hts rules`: the rules, listed and explained."""

from __future__ import annotations

import sys
from typing import NoReturn

import click

from hts.base.text.json_text import json_text
from hts.checking.report.terminal import printable
from hts.cli.completion import rule_names
from hts.cli.configured import config_option, configuration


@click.command("rules")
@click.argument("wanted", required=False, metavar="[CODE or NAME]", shell_complete=rule_names)
@click.option("--family", help="Only rules of this family.")
@click.option(
    "--severity",
    type=click.Choice(["error", "warning", "advice"]),
    help="Only rules of this severity.",
)
@config_option
@click.option(
    "--format",
    "output_format",
    type=click.Choice(["text", "json"]),
    default="text",
    help="Format of the answer.",
)
def command(
    wanted: str | None,
    family: str | None,
    severity: str | None,
    config: str | None,
    output_format: str,
) -> None:
    """List the rules, or explain one with its reason, source and examples.

    Rules of packs that the settings of this folder name are among them, where they may run.
    """
    from hts.checking.checker.results import PackError
    from hts.job.explain import rules

    packs = configuration(".", config).rule_packs
    try:
        known = rules.entries(packs)
    except PackError as error:
        raise click.ClickException(printable(str(error))) from None

    if wanted is not None:
        found = rules.find(wanted, packs)
        if found is None:
            _unknown(wanted, [kind.name for kind, _ in known])
        if output_format == "json":
            click.echo(json_text(rules.as_json(*found)), nl=False)
        else:
            click.echo(rules.text(*found), nl=False)
        return
    families = sorted({rules.family(rule) for _, rule in known})
    if family is not None and family not in families:
        click.echo(
            f"there is no family {family!r} of rules; there are: {', '.join(families)}", err=True
        )
        sys.exit(2)
    listed = [
        (kind, rule)
        for kind, rule in known
        if family in (None, rules.family(rule)) and severity in (None, kind.severity)
    ]
    if output_format == "json":
        data = [rules.as_json(kind, rule) for kind, rule in listed]
        click.echo(json_text(data), nl=False)
        return
    for kind, rule in listed:
        click.echo(rules.line(kind, rule))
    if not listed:
        click.echo("no rule fits", err=True)
        sys.exit(1)


def _unknown(wanted: str, names: list[str]) -> NoReturn:
    from hts.checking.rules.former import meant

    hint = meant(wanted, names) or "`hts rules` lists them"
    click.echo(f"there is no rule {wanted!r}; {hint}", err=True)
    sys.exit(2)
