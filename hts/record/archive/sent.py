"""A portion of an archive with all its files, for a machine that has none of them."""

from __future__ import annotations

import os
from contextlib import suppress

from hts.base.cluster import ClusterError, Files, Laid, laid_out
from hts.base.cluster.files import LARGEST, Gathered
from hts.checking.configuration import ConfigurationError, load
from hts.record.archive import texts
from hts.record.archive.find import Found
from hts.record.archive.portion import Judged, Portion, judged
from hts.record.errors import RecordError
from hts.record.reading import Options
from hts.record.reading.source import beside, regular


def files_of(portion: Portion, options: Options, config: str | None) -> Files:
    """The specification and what it uses, its results and settings, the logs and what lies beside
    them. Raises ClusterError where the settings name rule packs."""
    found = Gathered()
    for path, data in texts.used(portion.spec).items():
        found.add(path, data)
    named = [path for path in (options.mapping, options.events) if path is not None]
    for path in (*named, *texts.besides(portion.spec, config)):
        _add(found, path)
    with suppress(ConfigurationError):
        configured = load(portion.spec, config)
        if configured.rule_packs:
            raise ClusterError("rule packs are code of yours and are not sent: leave --on out")
        if configured.font is not None:
            _add(found, configured.font.path)
    for logs in portion.runs:
        for log in logs:
            for path in (log.path, beside(log.path, ".yaml"), beside(log.path, ".events.yaml")):
                _add(found, path)
    return found.files()


def _add(found: Gathered, path: str) -> None:
    """Takes a file along where it is there; that it is not is told there as here."""
    if os.path.isfile(path):
        with suppress(RecordError):
            found.add(path, regular(path, LARGEST + 1, whole=False))


def judged_there(
    files: Files, portion: Portion, options: Options, today: str | None, config: str | None
) -> Judged:
    """What a worker does."""
    with laid_out(files) as laid:
        asked = options._replace(
            mapping=_there(laid, options.mapping), events=_there(laid, options.events)
        )
        runs = tuple(tuple(_log(laid, log) for log in logs) for logs in portion.runs)
        moved = Portion(laid.there(portion.spec), runs)
        made: Judged = laid.as_told(judged(moved, asked, today, _there(laid, config)))
    return made


def _log(laid: Laid, log: Found) -> Found:
    return log._replace(path=laid.there(log.path), spec=laid.there(log.spec))


def _there(laid: Laid, path: str | None) -> str | None:
    return None if path is None else laid.there(path)
