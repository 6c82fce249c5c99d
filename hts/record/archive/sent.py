"""A portion of an archive with all its files, for a machine that has none of them."""

from __future__ import annotations

import os
from contextlib import suppress

from hts.base.cluster import ClusterError, Files, Laid, laid_out
from hts.base.cluster.files import LARGEST, Gathered
from hts.base.text.reading import Unreadable, read_bytes, root_of
from hts.checking.configuration import ConfigurationError, load
from hts.checking.configuration.find import FILE, SHARED
from hts.language.model.uses import used_by
from hts.record import results
from hts.record.archive.find import Found
from hts.record.archive.portion import Judged, Portion, forget, judged
from hts.record.errors import RecordError
from hts.record.reading import Options
from hts.record.reading.source import beside, regular


def files_of(portion: Portion, options: Options, config: str | None) -> Files:
    """The specification and what it uses, its results and settings, the logs and what lies beside
    them. Raises ClusterError where the settings name rule packs."""
    found = Gathered()
    root = os.path.join(root_of(portion.spec), "")
    _with_used(portion.spec, root, found, set())
    beside_it = (results.beside(portion.spec), options.mapping, options.events, config)
    for path in (*beside_it, *_settings(portion.spec)):
        if path is not None:
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


def _with_used(path: str, root: str, found: Gathered, known: set[str]) -> None:
    """A text and all that it uses, by way of others, too. What lies outside the repository is not
    read; that it does is told there as here."""
    real = os.path.realpath(path)
    if real in known or not (real.startswith(root) or not known):
        return
    known.add(real)
    try:
        data = read_bytes(real)
    except Unreadable:
        return
    found.add(path, data)
    for used in used_by(data.decode("utf-8", "replace"), os.path.abspath(path)):
        _with_used(used, root, found, known)


def _settings(spec: str) -> list[str]:
    """The files that settings are looked for in, up to the top of the repository."""
    folder, paths = os.path.dirname(os.path.realpath(spec)), []
    while True:
        paths += [os.path.join(folder, name) for name in (FILE, SHARED)]
        parent = os.path.dirname(folder)
        if parent == folder or os.path.exists(os.path.join(folder, ".git")):
            return paths
        folder = parent


def _add(found: Gathered, path: str) -> None:
    """Takes a file along where it is there; that it is not is told there as here."""
    if os.path.isfile(path):
        with suppress(RecordError):
            found.add(path, regular(path, LARGEST + 1, whole=False))


def judged_there(
    files: Files, portion: Portion, options: Options, today: str | None, config: str | None
) -> Judged:
    """What a worker does."""
    # Another unit may have had another file under the same name.
    forget()
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
