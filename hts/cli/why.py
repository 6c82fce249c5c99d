"""`hts why`: the reason of every value the rules give."""

from __future__ import annotations

import sys

import click

from hts.base.text.json_text import json_text
from hts.cli.completion import file_names
from hts.cli.configured import config_option, configuration
from hts.cli.read import spec_at


@click.command("why")
@click.argument("path", metavar="SPEC", shell_complete=file_names)
@click.argument("address", required=False, default="", metavar="[ADDRESS]")
@click.option(
    "--format",
    "output_format",
    type=click.Choice(["text", "json"]),
    default="text",
    help="Format of the answer.",
)
@config_option
def command(path: str, address: str, output_format: str, config: str | None) -> None:
    """Tell why a value is what it is.

    That is its formula with the numbers put in, what each book or procedure demands with
    paragraph, edition and basis, and which of them governs by how much.

    ADDRESS names a joint (W12), a treatment or a quantity (W12/hold-time); without it, every
    value is told.
    """
    from hts.checking.checker import Case
    from hts.checking.report.terminal import printable, printable_lines
    from hts.job.explain import why

    case = Case(spec_at(path, configuration(path, config).defaults))
    found = why.answers(case, address)
    if any(finding.severity == "error" for finding in case.spec.findings):
        click.echo(
            "the text has errors; run `hts check` to see them; what could not be read is left out "
            "here",
            err=True,
        )
    demanded = why.demands(case, address)
    if not found and not demanded:
        if not address:
            message = "the rules give no value: the file has no joint"
        else:
            guess = why.meant(case, address)
            hint = f"did you mean {guess}?" if guess else f"`hts why {printable(path)}` lists all"
            message = f"the rules give no value at {printable(address)}; {hint}"
        click.echo(message, err=True)
        sys.exit(1)
    if output_format == "json":
        click.echo(
            json_text(
                [
                    *map(why.as_json, found),
                    *({"address": each.address, "demand": each._asdict()} for each in demanded),
                ]
            ),
            nl=False,
        )
        return
    click.echo(printable_lines(why.text(found) + why.demands_text(demanded)), nl=False)
