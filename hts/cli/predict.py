"""`hts predict`: temperatures inside the wall, predicted before anybody heats."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, Any

import click

from hts.base.text.json_text import json_text
from hts.cli.completion import file_names
from hts.cli.configured import config_option, configuration
from hts.cli.folders import put, replace_option
from hts.cli.read import spec_at
from hts.predict.told import NOT_FOR

if TYPE_CHECKING:
    from hts.checking.govern.case import Case
    from hts.predict.outlook import Outlook


_NOT_FOR = "A prediction must not be used " + "; ".join(NOT_FOR) + "."


@click.command("predict", epilog=_NOT_FOR)
@click.argument("path", metavar="SPEC", shell_complete=file_names)
@click.argument("address", required=False, default="", metavar="[ADDRESS]")
@click.option(
    "--format",
    "output_format",
    type=click.Choice(["text", "json"]),
    default="text",
    help="Format of the prediction on standard output.",
)
@click.option(
    "-o",
    "--output",
    "folder",
    default=None,
    metavar="DIR",
    help="Also write prediction.json, prediction.txt and the pictures as SVG into this folder.",
)
@click.option(
    "--spread",
    metavar="K",
    type=click.FloatRange(1.0, 200.0),
    default=None,
    help="Tell the narrowest heated bands that keep the soak band within so many K below the "
    "setpoint; by default, within the range.",
)
@click.option(
    "-j",
    "--jobs",
    type=click.IntRange(1, 256),
    default=None,
    metavar="N",
    help="Processes to share the work out to; by default one per processor.",
)
@click.option(
    "--on",
    metavar="tcp://HOST:PORT",
    default=None,
    help="Share the samples out by this Dask scheduler; see grammar/CLUSTER.md for whom it trusts.",
)
@replace_option
@config_option
def command(
    path: str,
    address: str,
    output_format: str,
    folder: str | None,
    spread: float | None,
    jobs: int | None,
    on: str | None,
    replace: bool,
    config: str | None,
) -> None:
    """Predict the temperature of the wall, inside and all round, and where it stays cold.

    A prediction is never evidence: it does not make a hold met, and it does not argue for narrower
    bands, fewer thermocouples or shorter holds. Use it to find what to change before heating, and
    where to put a thermocouple.

    ADDRESS names a joint (W12) or a treatment of it (W12/stress-relief); without it, all are
    predicted. Exits 0 when all that the specification wants predicted holds, 1 when it does not or
    a treatment cannot be predicted, 2 when it could not run.
    """
    # Small systems are solved fastest by one thread; more would only wait for each other.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    from hts import __version__
    from hts.base.cluster import ClusterError, connected
    from hts.checking.govern.case import Case
    from hts.checking.report.terminal import printable, printable_lines
    from hts.predict.document import document
    from hts.predict.outlook import HOLDS, Outlook
    from hts.predict.report import report

    spec = spec_at(path, configuration(path, config).defaults)
    if any(finding.severity == "error" for finding in spec.findings):
        click.echo(
            f"nothing is predicted: the text has errors; run: hts check {printable(path)}", err=True
        )
        sys.exit(1)
    case = Case(spec)
    try:
        with connected(on):
            outlooks = _outlooks(case, address, spread, 1 if on else jobs or os.cpu_count() or 1)
    except (ClusterError, ChildProcessError) as error:
        raise click.ClickException(str(error)) from None
    if not outlooks:
        what = f"no treatment at {printable(address)}" if address else "no treatment"
        click.echo(f"nothing is predicted: the specification has {what}", err=True)
        sys.exit(1)
    named = _document(case)
    data = json_text(document(outlooks, __version__, named), finite=True)
    title = f"{named['name']}, fingerprint {named['fingerprint']}"
    different = _different(outlooks)
    parts = [
        report(one, __version__, title, _alike(one, outlooks)) if isinstance(one, Outlook)
        else f"{one[0]}: not predicted: {one[1]}\n"
        for one in different
    ]  # fmt: skip
    text = "\n".join(printable_lines(part) for part in parts)
    if folder is not None:
        _write(folder, replace, _pictures(case, different), text, data)
    click.echo(data if output_format == "json" else text, nl=False)
    held = all(
        isinstance(one, Outlook) and all(answer.verdict == HOLDS for answer in one.answers)
        for one in outlooks
    )
    sys.exit(0 if held else 1)


def _outlooks(
    case: Case, address: str, spread: float | None, jobs: int
) -> list[Outlook | tuple[str, str]]:
    """The predictions asked for; where there is none, the address and why."""
    from hts.cli.progress import progress
    from hts.predict.foresee import foresee_all, treatments_of

    chosen = treatments_of(case, address)
    advance = progress(1, "different treatments")
    found = foresee_all(case, chosen, spread, jobs, advance)
    return [
        (treatment.address, outlook) if isinstance(outlook, str) else outlook
        for treatment, outlook in zip(chosen, found, strict=True)
    ]


def _different(outlooks: list[Outlook | tuple[str, str]]) -> list[Outlook | tuple[str, str]]:
    """The predictions without those that say the same of another joint."""
    from hts.predict.foresee import is_same
    from hts.predict.outlook import Outlook

    found: list[Outlook | tuple[str, str]] = []
    for one in outlooks:
        told = isinstance(one, Outlook) and any(
            isinstance(other, Outlook) and is_same(one, other) for other in found
        )
        if not told:
            found.append(one)
    return found


def _alike(outlook: Outlook, outlooks: list[Outlook | tuple[str, str]]) -> list[str]:
    """The other treatments of which a prediction says the same."""
    from hts.predict.foresee import is_same
    from hts.predict.outlook import Outlook

    return [
        f"{one.setting.joint}, {one.setting.treatment}"
        for one in outlooks
        if isinstance(one, Outlook) and one is not outlook and is_same(one, outlook)
    ]


def _document(case: Case) -> dict[str, Any]:
    from hts.job.compiler.fingerprint import fingerprint, grouped

    job = case.spec.file.job
    return {
        "name": case.spec.source.name,
        "number": job.number if job is not None else None,
        "revision": job.revision.name if job is not None and job.revision is not None else None,
        "fingerprint": grouped(fingerprint(case.spec, case.authorities)),
    }


def _pictures(case: Case, outlooks: list[Outlook | tuple[str, str]]) -> dict[str, bytes]:
    """The pictures; none of a text without a job, whose papers nobody could tell apart."""
    from hts.job.compiler import CannotCompile
    from hts.job.compiler.document import document
    from hts.paper.predicted import files
    from hts.paper.sheet import MissingPackage
    from hts.predict.outlook import Outlook

    try:
        named = document(case.spec, case.authorities)
        return files([one for one in outlooks if isinstance(one, Outlook)], named)
    except CannotCompile as error:
        click.echo(f"no picture: {error.reasons[0]}", err=True)
        return {}
    except MissingPackage as error:
        raise click.ClickException(str(error)) from None


def _write(folder: str, replace: bool, pictures: dict[str, bytes], text: str, data: str) -> None:
    """Writes the files, all or none; ends the program where somebody else's would be lost."""
    files = {
        "prediction.json": data.encode("utf-8"),
        "prediction.txt": text.encode("utf-8"),
        **pictures,
    }
    put(folder, files, replace=replace, listed_in="prediction.sha256")
