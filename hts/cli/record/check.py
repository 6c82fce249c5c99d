"""`hts record check`: did the run meet its specification?"""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, Any

import click

from hts.cli.record.archive import archive_options, judge_archive
from hts.cli.record.asked import job_of_a_run, options, reading_options, refuse, run_options, told
from hts.cli.record.handed import hand_over, paper_options, wanted
from hts.cli.today import day

if TYPE_CHECKING:
    from hts.checking.checker.results import Shard
    from hts.record.expected.comparison import Comparison
    from hts.record.judging import Judgement

_MET, _NOT = 0, 1


@click.command("check")
@click.argument("spec", metavar="SPEC")
@click.argument("logs", metavar="LOG…", nargs=-1)
@run_options
@reading_options
@archive_options
@paper_options
@click.option(
    "--today",
    metavar="DATE",
    default=None,
    help="Date of a record that states none; `now` for today.",
)
@click.option(
    "--results",
    "results_file",
    metavar="FILE",
    default=None,
    help="What was found afterwards; SPEC's own NAME.results.hts unless said.",
)
@click.option(
    "--sheet-of-run",
    "sheet_file",
    metavar="JOB.JSON",
    default=None,
    help="The job.json compiled when the sheet was issued; where it asked for something else than "
    "the text does now, nothing is met.",
)
@click.option(
    "--format",
    "output_format",
    type=click.Choice(["text", "json", "csv"]),
    default="text",
    help="Format of the judgement; csv is for an archive.",
)
@click.option(
    "--predict",
    "predicts",
    is_flag=True,
    help="Also set the record beside what is predicted of it; it bears on no verdict. Done without "
    "this option where the text says `predict`.",
)
def command(
    spec: str,
    logs: tuple[str, ...],
    joint: str | None,
    cycle: str | None,
    today: str | None,
    results_file: str | None,
    sheet_file: str | None,
    output_format: str,
    predicts: bool,
    archive: str | None,
    jobs: int | None,
    cluster: str | None,
    shard: Shard | None,
    **given: Any,
) -> None:
    """Judge a recorded run against every requirement of the specification.

    Several logs are joined to one record. With --archive SPEC may be a folder of specifications.
    Exits 0 when all is met, 1 when something is not met or not shown, 2 when it could not be
    judged.
    """
    # Small systems are solved fastest by one thread; numpy reads this when it is first imported.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    from hts.record import faults, judging, results, sheet, wrong_sheet
    from hts.record.belonging import belonging
    from hts.record.errors import RecordError
    from hts.record.judging import document, text
    from hts.record.reading import read

    on = day(today)
    papers = wanted(given)
    if (archive is None) == (not logs):
        raise click.UsageError("name either the logs of one record or --archive FOLDER")
    if archive is not None and papers.folder is not None:
        raise click.UsageError("-o is for one record, not for an archive")
    if archive is not None:
        if cluster is not None and jobs is not None:
            raise click.UsageError("--on shares the records out itself: leave --jobs out")
        terms = options(given), on, jobs, cluster, shard
        judge_archive(spec, archive, *terms, output_format, papers.config, joint, cycle)
    if cluster is not None:
        raise click.UsageError("--on is for an archive")
    if output_format == "csv":
        raise click.UsageError("--format csv is for an archive")
    # What hangs on a day is judged on that of the record, not on today.
    compiled, errors = job_of_a_run(spec, papers.config)
    try:
        asked, notes, against = belonging(compiled, logs, joint, cycle)
        record = read(logs, asked.run.tags, options(given))
        found = faults.find(record, asked)
        judgement = judging.judge(faults.apply(record, found), asked, found, on, against)
        judgement = judgement._replace(assumed=(*notes, *judgement.assumed))
        judgement = results.judged(judgement, results_file or results.beside(spec))
        if sheet_file is not None:
            judgement = sheet.judged(judgement, sheet.read(sheet_file))
        judgement = wrong_sheet.judged(judgement, errors)
    except RecordError as error:
        refuse(told(error))
    comparison = _compared(judgement, predicts)
    hand_over(judgement, papers, spec, comparison)
    if output_format == "json":
        beside = None
        if comparison is not None:
            from hts.record.expected.json_form import predicted

            beside = predicted(comparison)
        click.echo(document.write(judgement, beside), nl=False)
    else:
        click.echo(text.write(judgement), nl=False)
        if comparison is not None:
            from hts.record.expected import words

            click.echo(words.write(comparison), nl=False)
    sys.exit(_MET if judgement.overall == judging.MET else _NOT)


def _compared(judgement: Judgement, always: bool) -> Comparison | str | None:
    """The record beside its prediction, or why there is none; None where nobody asks."""
    try:
        from hts.record.expected.comparison import compared
    except ModuleNotFoundError as error:
        if (error.name or "").partition(".")[0] != "scipy":
            raise
        return 'scipy is not installed; run: pip install "hts[predict]"' if always else None
    return compared(judgement.plan, judgement.record, always=always)
