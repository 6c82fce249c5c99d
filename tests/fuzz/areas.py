"""What is tried: each area draws a spoiled input of one kind and a command that reads it."""

from __future__ import annotations

import os
from collections.abc import Callable
from random import Random
from typing import NamedTuple

from tests.fuzz.looks import checks, compiles, formats, judges, nothing_more, points, same_as_itself
from tests.fuzz.looks import kept as keeps
from tests.fuzz.run import Ran
from tests.fuzz.spoil import other_values, spoiled
from tests.fuzz.texts import VALUES, VOCABULARY, grammar_text
from tests.fuzz.workplace import RUNS, Workplace

Look = Callable[["Trial", Ran], None]


class Trial(NamedTuple):
    """Files put over those of the workplace, the command, what it may write, and what must hold
    besides what holds for every command."""

    files: dict[str, bytes]
    arguments: tuple[str, ...]
    writes: tuple[str, ...] = ()
    look: Look = nothing_more


class Area(NamedTuple):
    """`share`: of a thousand trials, so many."""

    name: str
    share: int
    make: Callable[[Random, Workplace], Trial]


def _damage(random: Random, place: Workplace, name: str, gentle: float = 0.3) -> bytes:
    """What a file of the workplace holds, spoiled."""
    content = place.files[name]
    if random.random() < gentle:
        return other_values(random, content)
    ending = name.rpartition(".")[2]
    like = tuple(c for n, c in sorted(place.files.items()) if n.endswith(f".{ending}"))
    return spoiled(random, content, like)


def _spec(random: Random, place: Workplace, gentle: float = 0.3) -> tuple[str, dict[str, bytes]]:
    """A specification, itself spoiled or one of the files it uses."""
    top = [name for name in place.specs() if "/" not in name]
    # Most are the small ones, which are read in a third of the time.
    small = random.random() < 0.75
    name = random.choice([n for n in top if n.startswith("base-") == small])
    if random.random() < 0.04:
        return name, {name: grammar_text(random).encode("utf-8", "surrogatepass")}
    library = [n for n in place.specs() if "/" in n]
    spoils = random.choice(library) if random.random() < 0.08 else name
    return name, {spoils: _damage(random, place, spoils, gentle)}


def _check(random: Random, place: Workplace) -> Trial:
    name, files = _spec(random, place)
    more = random.choice(((), (), ("--config", "settings.toml"), ("--with-users",)))
    return Trial(files, ("check", name, "--no-cache", "--format", "json", *more), (), checks)


def _places(random: Random, place: Workplace) -> Trial:
    name, files = _spec(random, place)
    return Trial(files, ("check", name, "--no-cache", "--quiet"), (), points)


def _report(random: Random, place: Workplace) -> Trial:
    name, files = _spec(random, place)
    form = random.choice(("sarif", "junit", "github", "gitlab", "text", "json"))
    written = ("--report", f"{form}=made.report")
    shown = random.choice((("--statistics",), ("--quiet",), ("--width", "60"), ("--fix",)))
    writes = ("made.report", *(files if shown == ("--fix",) else ()))
    if shown == ("--fix",):
        writes = ("made.report", name)
    return Trial(files, ("check", name, "--no-cache", *written, *shown), writes)


def _fmt(random: Random, place: Workplace) -> Trial:
    name, files = _spec(random, place)
    return Trial(files, ("fmt", name, "--no-cache"), (name,), formats)


def _why(random: Random, place: Workplace) -> Trial:
    name, files = _spec(random, place, 0.5)
    at = random.choice(((), (), ("W12",), ("W12/hold-time",), (_word(random),)))
    return Trial(files, ("why", name, *at, "--format", random.choice(("text", "json"))))


def _fingerprint(random: Random, place: Workplace) -> Trial:
    name, files = _spec(random, place)
    return Trial(files, ("fingerprint", name), (), same_as_itself)


PAPERS = ((), ("--packet",), ("--svg",), ("--xlsx",), ("--kit",), ("--labels",), ("--by-joint",))


def _compile(random: Random, place: Workplace) -> Trial:
    name, files = _spec(random, place, 0.8)
    asked = random.choice(PAPERS) + random.choice(((), (), ("--sheet", "Letter")))
    more = random.choice(((), (), ("--config", "settings.toml"), ("--label", "start=3")))
    return Trial(files, ("compile", name, "-o", "out", *asked, *more), ("out",), compiles)


def _diff(random: Random, place: Workplace) -> Trial:
    name, files = _spec(random, place, 0.5)
    old, new = ("base-butt.hts", name) if random.random() < 0.5 else (name, "p22-header.hts")
    if random.random() < 0.5:
        files = {"other.hts": next(iter(files.values()))}
        old, new = (name, "other.hts") if random.random() < 0.5 else ("other.hts", name)
    form = random.choice(("text", "json", "markdown"))
    more = random.choice(((), ("--representation",), ("--today", "2026-11-20")))
    return Trial(files, ("diff", old, new, "--format", form, *more))


def _log(random: Random, place: Workplace) -> Trial:
    spec, log, _ = random.choice(RUNS)
    return _judged(random, {log: _damage(random, place, log)}, spec, log)


def _sidecar(random: Random, place: Workplace) -> Trial:
    spec, log, _ = random.choice(RUNS)
    kind = random.randrange(4)
    if kind == 0:
        files = {log.replace(".csv", ".yaml"): _damage(random, place, "mapping.yaml")}
    elif kind == 1:
        files = {log.replace(".csv", ".events.yaml"): _damage(random, place, "events.yaml")}
    elif kind == 2:
        spec, log, _ = RUNS[1]
        files = {"p22-header.results.hts": _damage(random, place, "p22-header.results.hts")}
    else:
        files = {spec: _damage(random, place, spec, 0.8)}
    return _judged(random, files, spec, log)


def _judged(random: Random, files: dict[str, bytes], spec: str, log: str) -> Trial:
    ask = random.randrange(12)
    if ask == 0:
        return Trial(files, ("record", "watch", "--once", spec, log, "--format", "json"))
    if ask == 1:
        return Trial(
            files, ("record", "check", spec, "--archive", os.path.dirname(log), "--jobs", "1")
        )
    if ask == 2:
        paper = random.choice(("--pdf", "--xlsx", "--svg", "--png"))
        return Trial(files, ("record", "check", spec, log, "-o", "out", paper), ("out",))
    options = random.choice(
        ((), (), (), ("--unit", "degF"), ("--day-order", "month"), ("--separator", ";"),
         ("--time", _word(random)), ("--zone", "Europe/Oslo"), ("--time-unit", "serial"))
    )  # fmt: skip
    return Trial(files, ("record", "check", spec, log, "--format", "json", *options), (), judges)


def _simulate(random: Random, place: Workplace) -> Trial:
    name, files = _spec(random, place, 0.8)
    more = random.choice(((), ("--departure", "over-rate"), ("--start", _word(random))))
    arguments = ("record", "simulate", name, "-o", "made.csv", "--every", "10 min", *more)
    return Trial(files, arguments, ("made.csv",))


def _weld_list(random: Random, place: Workplace) -> Trial:
    name = random.choice(("list.csv", "list.csv", "list.hts"))
    files = {name: _damage(random, place, name)}
    asked = (
        ("weld-list", "list.hts"), ("weld-list", "list.hts", "--format", "csv"),
        ("check", "list.hts", "--no-cache"), ("new", "--weld-list", "list.csv"),
    )  # fmt: skip
    return Trial(files, random.choice(asked))


def _plan(random: Random, place: Workplace) -> Trial:
    if random.random() < 0.3:
        files = {"ready.csv": _damage(random, place, "ready.csv")}
        ready = ("--ready", "ready.csv", "--from", "2026-12-01 06:00")
        return Trial(files, ("plan", "p22-header.hts", *ready))
    name, files = _spec(random, place, 0.7)
    return Trial(files, ("plan", name, "-o", "out"), ("out",))


def _predict(random: Random, place: Workplace) -> Trial:
    """Nearly all of it is refused before the long work, which the alarm of a trial would end."""
    name, files = _spec(random, place, 0)
    return Trial(files, ("predict", name, _word(random)))


def _view(random: Random, place: Workplace) -> Trial:
    name, files = _spec(random, place, 0.5)
    return Trial(files, ("view", name, "--export", "out"), ("out",))


def _config(random: Random, place: Workplace) -> Trial:
    files = {"hts.toml": spoiled(random, place.files["settings.toml"], ())}
    asked = (
        ("config",), ("config", "--format", "json"), ("rules",),
        ("check", "wrong.hts", "--no-cache"), ("fingerprint", "wrong.hts"),
    )  # fmt: skip
    return Trial(files, random.choice(asked))


def _baseline(random: Random, place: Workplace) -> Trial:
    files = {"known.json": _damage(random, place, "known.json")}
    more = ("--write-baseline",) if random.random() < 0.3 else ()
    arguments = ("check", "wrong.hts", "--no-cache", "--baseline", "known.json", *more)
    return Trial(files, arguments, ("known.json",) if more else ())


def _approvals(random: Random, place: Workplace) -> Trial:
    files = {"approvals.json": _damage(random, place, "approvals.json")}
    more = ("--approve", "Owner") if random.random() < 0.3 else ()
    arguments = ("diff", "base-butt.hts", "wrong.hts", "--approvals", "approvals.json", *more)
    return Trial(files, arguments, ("approvals.json",) if more else ())


def _shards(random: Random, place: Workplace) -> Trial:
    files = {"part1.json": _damage(random, place, "part1.json")}
    return Trial(files, ("check", "--merge-reports", "part1.json", "part2.json"))


def _cache(random: Random, place: Workplace) -> Trial:
    return Trial({}, ("check", "wrong.hts", "--format", "json"), (), keeps(random))


def _books(random: Random, place: Workplace) -> Trial:
    files = {"books/island-law.yaml": _damage(random, place, "books/island-law.yaml")}
    law = "condensate-own-law.hts"
    asked = (
        ("books", "books/island-law.yaml"), ("check", law, "--no-cache"),
        ("why", law), ("books", "--for", law, "W63"),
    )  # fmt: skip
    return Trial(files, random.choice(asked))


def _words(random: Random, place: Workplace) -> Trial:
    """Good files, and odd words on the command line."""
    said = _word(random)
    options = (
        ("language", said), ("rules", said), ("books", said), ("why", "base-butt.hts", said),
        ("config", said), ("check", "base-butt.hts", "--today", said), ("check", said),
        ("diff", said, "base-butt.hts"), ("fingerprint", "base-butt.hts", "--expect", said),
        ("compile", "base-butt.hts", "-o", "out", "--joint", said), ("rules", "--family", said),
        ("compile", "base-butt.hts", "-o", "out", "--label", said),
        ("record", "check", "base-butt.hts", "runs/butt.csv", "--cycle", said),
        ("record", "check", "base-butt.hts", "runs/butt.csv", "--zone", said),
        ("plan", "base-butt.hts", "--set-up", said), ("plan", "base-butt.hts", "--from", said),
        ("new", "made.hts", "--nps", said), ("new", "made.hts", "--title", said),
        ("new", "made.hts", "--schedule", said), ("new", "made.hts", "--date", said),
        ("check", "base-butt.hts", "--offer", said),
    )  # fmt: skip
    return Trial({}, random.choice(options), ("out", "made.hts"))


def _word(random: Random) -> str:
    base = random.choice((*VALUES, *VOCABULARY, "W12", "2026-11-20", "W12/stress-relief", "B101"))
    if random.random() < 0.4:
        base = spoiled(random, base.encode()).decode("utf-8", "replace")
    # The system hands no NUL over, and a word with a hyphen first is an option.
    return base.replace("\0", "").lstrip("-") or "x"


AREAS = (
    Area("check", 140, _check),
    Area("places of findings", 60, _places),
    Area("reports and --fix", 70, _report),
    Area("fmt", 120, _fmt),
    Area("why", 60, _why),
    Area("fingerprint", 40, _fingerprint),
    Area("compile", 50, _compile),
    Area("diff", 60, _diff),
    Area("record: logs", 70, _log),
    Area("record: beside the log", 50, _sidecar),
    Area("record: simulate", 15, _simulate),
    Area("weld lists", 45, _weld_list),
    Area("plan", 20, _plan),
    Area("predict", 10, _predict),
    Area("view", 10, _view),
    Area("settings", 50, _config),
    Area("known findings", 30, _baseline),
    Area("approvals", 20, _approvals),
    Area("shards", 20, _shards),
    Area("kept outcomes", 15, _cache),
    Area("books of one's own", 30, _books),
    Area("words of the command line", 35, _words),
)
