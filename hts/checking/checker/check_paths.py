"""Checks many files: finds them, checks each once, keeps their order."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterable, Iterator

from hts.checking.checker.results import Outcome, Results, Shard, UncheckedFile
from hts.checking.checker.several_roots import renamed, telling_apart
from hts.checking.checker.tasks import (
    STDIN,
    SUFFIX,
    Settings,
    Task,
    files_below,
    is_table,
    plain,
    tasks_of,
)
from hts.language.model.defaults import Quieted

__all__ = [
    "FEW",
    "STDIN",
    "SUFFIX",
    "Results",
    "Task",
    "UncheckedFile",
    "cache_folder",
    "check_paths",
    "files_below",
]

Tasks = list[Task | UncheckedFile]

#: Up to this many files, starting further processes costs more time than it saves.
FEW = 64


def check_paths(
    paths: Iterable[str],
    *,
    today: str | None = None,
    stdin_path: str | None = None,
    jobs: int | None = None,
    settings: Settings = plain,
    shard: Shard | None = None,
    cache: str | None = None,
    progress: Callable[[int, int], None] | None = None,
    users: bool = False,
    on: str | None = None,
) -> Results:
    """Checks files, folders and, for "-", standard input.

    ``jobs`` is the number of processes; None means one for a few files, every core for many.
    ``settings`` gives what is configured for a path. ``shard`` checks one of several equal parts of
    the files. ``cache`` is the folder of outcomes kept between runs. However it is spread and
    whatever was kept, the results are the same, in the same order. ``progress`` is told the number
    of files done, and of all. ``users``: what uses one of the files is checked, too.

    ``on`` is the address of a Dask scheduler that shares the files out, without a cache.

    Raises ChildProcessError where a process was killed or a cluster cannot be used, and
    PermissionError where HTS_CACHE_DIR lies inside the repository of a file.
    """
    results = Results()
    left_out: list[Quieted] = []
    tasks = tasks_of(paths, stdin_path, settings, left_out)
    if users:
        from hts.checking.checker.users import with_users

        tasks = with_users(tasks, settings)
    else:
        tasks = [_alone(task) for task in tasks]
    if shard is not None:
        from hts.checking.checker.shards import files_of_shard, shard_plan

        results.shard_plan = shard_plan(tasks, shard, today)
        tasks = files_of_shard(tasks, shard)
    found = (q for t in tasks if isinstance(t, Task) for q in t.setting.defaults.quieted)
    results.quieted = list(dict.fromkeys((*found, *left_out)))
    if cache is not None and _among(cache, tasks):
        if os.environ.get("HTS_CACHE_DIR"):
            raise PermissionError(
                f"the cache {cache} lies inside the repository, where a change could bring forged "
                "outcomes along; name another folder in HTS_CACHE_DIR, or say --no-cache"
            )
        cache = None
    if on is not None:
        from hts.checking.checker.cluster import check_on_cluster

        outcomes = check_on_cluster(tasks, today, on)
    else:
        outcomes = _kept(tasks, today, jobs, cache) if cache else _fresh(tasks, today, jobs)
    prefixes = telling_apart(tasks)
    for done, (task, outcome) in enumerate(zip(tasks, outcomes, strict=True), 1):
        if prefixes and isinstance(task, Task):
            outcome = renamed(outcome, prefixes[task.root])
        results.add(outcome)
        if progress is not None:
            progress(done, len(tasks))
    results.arrange()
    return results


def _alone(task: Task | UncheckedFile) -> Task | UncheckedFile:
    """A table says nothing without the specification that names its columns."""
    if not isinstance(task, Task) or not is_table(task):
        return task
    return UncheckedFile(
        task.name,
        "a table is checked with the specification that names it: check that, or say --with-users",
    )


def _among(cache: str, tasks: Tasks) -> bool:
    """Whether the cache lies in a repository whose files it keeps outcomes of: whoever can change
    a file there could change its outcome."""
    roots = dict.fromkeys(task.root for task in tasks if isinstance(task, Task))
    return any(lies_in_repository(cache, root) for root in roots)


def lies_in_repository(folder: str, root: str) -> bool:
    """Whether a folder lies within the root of a repository."""
    real = os.path.join(os.path.realpath(folder), "")
    within = real.startswith(os.path.join(os.path.realpath(root), ""))
    return within and os.path.exists(os.path.join(root, ".git"))


def cache_folder() -> str | None:
    """The folder of the cache: `HTS_CACHE_DIR`, else `hts` in the user's cache folder; None where
    there is no such place."""
    named = os.environ.get("HTS_CACHE_DIR")
    if named:
        return os.path.abspath(named)
    if sys.platform == "linux":
        # As platformdirs has it (XDG Base Directory Specification), without waiting for it.
        base = os.environ.get("XDG_CACHE_HOME", "").strip()
        if not os.path.isabs(base):
            base = os.path.expanduser(os.path.join("~", ".cache"))
        folder = os.path.join(base, "hts")
    else:
        import platformdirs

        folder = platformdirs.user_cache_dir("hts", appauthor=False)
    return folder if os.path.isabs(folder) else None


def _fresh(
    tasks: Tasks, today: str | None, jobs: int | None, keep: bool = False
) -> Iterator[Outcome | UncheckedFile]:
    """The outcomes of the tasks in their order, every text checked."""
    if jobs == 1 or (jobs is None and len(tasks) <= FEW):
        from hts.checking.checker.outcome import outcomes

        yield from outcomes(tasks, today, keep)
    else:
        from hts.checking.checker.processes import check_in_processes, cores

        yield from check_in_processes(tasks, today, jobs or cores(), keep)


def _kept(
    tasks: Tasks, today: str | None, jobs: int | None, folder: str
) -> Iterator[Outcome | UncheckedFile]:
    """The same, only those texts checked for which no outcome was kept."""
    from hts.checking.checker.cache import Caches

    caches = Caches(folder)
    known = [caches.find(task, today) for task in tasks]
    unknown = (task for task, outcome in zip(tasks, known, strict=True) if outcome is None)
    missing = [caches.with_joints(task) for task in unknown]
    fresh = _fresh(missing, today, jobs, True) if missing else iter(())
    for task, outcome in zip(tasks, known, strict=True):
        if outcome is None:
            outcome = next(fresh)
            caches.keep(task, outcome, today)
        yield outcome
    caches.save()
