"""`hts fingerprint`: whether the paper in hand is the paper of this text."""

from __future__ import annotations

import re
import sys

import click

from hts.base.text.json_text import json_text
from hts.cli.completion import file_names
from hts.cli.configured import config_option, configuration
from hts.cli.read import spec_at

#: As many digits as are printed on paper; fewer prove too little.
_LEAST = 12
_WHOLE = 64
_DIGITS = re.compile(r"[0-9a-f]+")


def _given(ctx: click.Context, param: click.Parameter, text: str | None) -> str | None:
    """The digits of a fingerprint, however they were typed."""
    if text is None:
        return None
    digits = re.sub(r"[\s-]", "", text).lower()
    if not _DIGITS.fullmatch(digits):
        raise click.BadParameter(
            "a fingerprint has the digits 0 to 9 and a to f, such as 3f9a-01bc-77de", ctx, param
        )
    if not _LEAST <= len(digits) <= _WHOLE:
        raise click.BadParameter(
            f"a fingerprint has {_LEAST} digits on paper and {_WHOLE} in full; this has "
            f"{len(digits)}",
            ctx,
            param,
        )
    return digits


@click.command("fingerprint")
@click.argument("path", metavar="SPEC", shell_complete=file_names)
@click.option(
    "--expect",
    metavar="F",
    callback=_given,
    default=None,
    help="Fingerprint on the paper in hand, with or without hyphens.",
)
@click.option(
    "--format",
    "output_format",
    type=click.Choice(["text", "json"]),
    default="text",
    help="Format of the answer; json has the whole digest.",
)
@config_option
def command(path: str, expect: str | None, output_format: str, config: str | None) -> None:
    """Print the fingerprint that is on the papers of a specification, or compare it with one.

    It covers what the text says, what it uses, the rule books it is held to and the rules that
    settings leave out; layout and remarks do not count. With --expect it
    exits 0 when the paper in hand was made from them, 1 when it was not, and 2 when it could not
    run.
    """
    from hts.checking.checker import Case
    from hts.job.compiler.fingerprint import fingerprint, grouped

    case = Case(spec_at(path, configuration(path, config).defaults))
    digest = fingerprint(case.spec, case.authorities)
    now = grouped(digest)
    findings = [*case.spec.findings, *case.report.findings]
    if any(finding.severity == "error" for finding in findings):
        click.echo("the text has errors and cannot be compiled; run hts check", err=True)
    current = None if expect is None else digest.startswith(expect)
    if output_format == "json":
        answer = {"fingerprint": now, "algorithm": "SHA-256", "digest": digest}
        document = answer if expect is None else {**answer, "expected": expect, "current": current}
        click.echo(json_text(document), nl=False)
    elif expect is None:
        click.echo(now)
    elif current:
        click.echo(f"{now}: the paper is current")
    else:
        theirs, ours = (grouped(expect), now) if len(expect) == _LEAST else (expect, digest)
        click.echo(f"the paper is NOT current: it has {theirs}, the text has {ours}")
    sys.exit(1 if current is False else 0)
