"""What becomes of the recorder's rows: hung, copied, exchanged, cut, misdated, noted."""

from __future__ import annotations

from datetime import timedelta

import numpy as np

from tests.record.physics.cases import Edit, Situation, heating, hold, plain, required
from tests.record.physics.recorder import UPSCALE, record

RNG = np.random.Generator


def _rows(made: Situation, begin: float, end: float) -> slice:
    first, last = np.searchsorted(made.table.seconds, [begin, end])
    return slice(int(first), max(int(first) + 1, int(last)))


def _keep(made: Situation, keep: np.ndarray) -> None:
    table = made.table
    table.seconds, table.values = table.seconds[keep], table.values[keep]
    if table.shift is not None:
        table.shift = table.shift[keep]


def hang(part: float) -> Edit:
    """Every channel holds its last value for a part of the hold."""

    def edit(made: Situation, rng: RNG) -> None:
        begin = rng.uniform(0.02, 0.95 - part)
        rows = _rows(made, hold(made.run, begin), hold(made.run, begin + part))
        made.table.values[rows] = made.table.values[rows.start]
        made.shown = "not shown"

    return edit


def freeze(made: Situation, rng: RNG) -> None:
    tag = required(made.run, rng)
    rows = _rows(made, hold(made.run, rng.uniform(0, 0.3)), 1e12)
    column = made.table.column(tag)
    made.table.values[rows, column] = made.table.values[rows.start, column]
    made.blame, made.shown = (tag,), "not shown"


def repeat_rows(made: Situation, rng: RNG) -> None:
    """A stretch of the hold written again over the stretch that follows."""
    table = made.table
    first = _rows(made, hold(made.run, 0.1), hold(made.run, 0.45))
    length = first.stop - first.start
    table.values[first.stop : first.stop + length] = table.values[first]


def copy_column(offset: float) -> Edit:
    def edit(made: Situation, rng: RNG) -> None:
        table = made.table
        tags = [place.tag for place in made.run.places if place.required]
        source, to = rng.choice(tags, 2, replace=False)
        # So many units of the file: its numbers are copied.
        more = offset / 1.8 if made.settings.unit == "degF" else offset
        table.values[:, table.column(to)] = table.values[:, table.column(source)] + more
        made.blame = (str(to), str(source))

    return edit


def _exchange(made: Situation, a: str, b: str) -> None:
    table = made.table
    pair = [table.column(a), table.column(b)]
    table.values[:, pair] = table.values[:, pair[::-1]]
    made.blame = (a, b)


def exchange_controls(made: Situation, rng: RNG) -> None:
    """Cannot be told from the readings alone where both zones run alike."""
    _exchange(made, "T1", "T2")


def exchange_edge(made: Situation, rng: RNG) -> None:
    edges = [
        p.tag for p in made.run.places if not p.required and not p.partner and 250 < abs(p.mm) < 500
    ]
    _exchange(made, required(made.run, rng), str(rng.choice(edges)))


def wrong_unit_all(made: Situation, rng: RNG) -> None:
    table, unit = made.table, made.settings.unit
    table.units = dict.fromkeys(table.tags, "degC" if unit == "degF" else "degF")
    if unit == "degC":  # says degF, numbers are degC
        made.note = "numbers in degC, said to be degF"


def wrong_unit_one(made: Situation, rng: RNG) -> None:
    tag = required(made.run, rng)
    column = made.table.column(tag)
    values = made.table.values[:, column]
    fahrenheit = made.settings.unit == "degF"
    # The file's numbers of this one channel are in the other unit.
    made.table.values[:, column] = (values - 32) / 1.8 if fahrenheit else values * 1.8 + 32
    made.blame = (tag,)


def tenth(made: Situation, rng: RNG) -> None:
    tag = required(made.run, rng)
    made.table.values[:, made.table.column(tag)] /= 10
    made.blame = (tag,)


def clock_jump(sign: int) -> Edit:
    def edit(made: Situation, rng: RNG) -> None:
        table = made.table
        at = rng.uniform(heating(made.run, 0.2), hold(made.run, 0.8))
        by = sign * rng.uniform(15, 50) * 60
        table.shift = np.where(table.seconds >= at, by, 0.0)

    return edit


def missing(part: float) -> Edit:
    def edit(made: Situation, rng: RNG) -> None:
        begin = rng.uniform(0.1, 0.8 - part)
        rows = _rows(made, hold(made.run, begin), hold(made.run, begin + part))
        keep = np.ones(len(made.table.seconds), bool)
        keep[rows] = False
        _keep(made, keep)

    return edit


def without_power(made: Situation, rng: RNG) -> None:
    """The recorder was off with the heaters: no rows while the pipe cooled. The clock ran on."""
    off = (made.run.output == 0).all(axis=1) & (made.run.seconds > made.run.at[1] + 600)
    at = made.run.seconds[off & (made.run.seconds < made.run.at[2])]
    cut = max(np.split(at, np.flatnonzero(np.diff(at) > 20) + 1), key=len)
    _keep(made, (made.table.seconds < cut[0]) | (made.table.seconds > cut[-1]))


def pair_apart(made: Situation, rng: RNG) -> None:
    """Nothing is wrong with the pair; to say that it disagrees is right all the same."""
    made.blame = ("T2", "T2S")


def heater_lost(made: Situation, rng: RNG) -> None:
    """Every reading is right: what is wrong is the heating of one zone."""
    (zone,) = made.run.program.upsets[0].zones
    made.zone = made.run.plant.zones[zone]


def spikes(made: Situation, rng: RNG) -> None:
    tag = required(made.run, rng)
    values = made.table.values[:, made.table.column(tag)]
    for n in rng.choice(len(values) - 20, 9, replace=False) + 10:
        values[n] += rng.uniform(80, 300) * rng.choice([-1, 1])
    made.blame = (tag,)


def two_runs(made: Situation, rng: RNG) -> None:
    """A short run of the day before stands above this one in the same file, its hold half as
    long."""
    table = made.table
    other = record(plain(made.run.plant, 1), made.settings, {}, rng)
    keep = other.seconds <= hold(plain(made.run.plant, 1), 0.45)
    before = other.seconds[-1] + 3600 * 9
    table.clock -= timedelta(seconds=before)
    table.values = np.concatenate([other.values[keep], table.values])
    table.seconds = np.concatenate([other.seconds[keep] - before, table.seconds]) + before
    made.shown = "met, fault beside"


def dated_before(made: Situation, rng: RNG) -> None:
    made.table.clock -= timedelta(days=int(rng.integers(60, 200)))


def other_revision(made: Situation, rng: RNG) -> None:
    plant = made.run.plant
    made.table.text = {"document": f"{plant.number} revision 0A", "joint": plant.joint}


def _note(made: Situation, seconds: float, kind: str, **more: str) -> None:
    when = made.table.clock + timedelta(seconds=round(seconds))
    made.table.events.append(
        {"at": f"{when:%Y-%m-%d %H:%M:%S}", "kind": kind, "seconds": str(seconds), **more}
    )


def note_minute(made: Situation, rng: RNG) -> None:
    at = hold(made.run, 0.3)
    _note(made, at, "power lost")
    _note(made, at + 60, "power back")


def note_power(stage: int) -> Edit:
    """Power lost and back, told as it truly was."""

    def edit(made: Situation, rng: RNG) -> None:
        off = (made.run.output == 0).all(axis=1) & (made.run.seconds > made.run.at[stage])
        off &= made.run.seconds < made.run.at[stage + 1]
        at = made.run.seconds[off]
        # The longest stretch without any output is the cut.
        parts = np.split(at, np.flatnonzero(np.diff(at) > 20) + 1)
        cut = max(parts, key=len)
        _note(made, float(cut[0]), "power lost")
        _note(made, float(cut[-1]), "power back")

    return edit


def handover(made: Situation, rng: RNG) -> None:
    at = rng.uniform(heating(made.run, 0.4), hold(made.run, 0.6))
    table = made.table
    table.values[table.seconds >= at, table.column("T1")] = UPSCALE
    _note(made, at, "replaced", tag="T1", by="T1S")
    made.blame = ("T1",)


def begins_late(made: Situation, rng: RNG) -> None:
    at = heating(made.run, rng.uniform(0.2, 0.5))
    _keep(made, made.table.seconds >= at)


def ends_early(made: Situation, rng: RNG) -> None:
    at = made.run.at[3] + rng.uniform(0.15, 0.4) * (made.run.seconds[-1] - made.run.at[3])
    _keep(made, made.table.seconds <= at)


def gap_at_end(made: Situation, rng: RNG) -> None:
    seconds = made.table.seconds
    end = made.run.at[3]
    length = end - made.run.at[2]
    _keep(made, (seconds < end - 0.35 * length) | (seconds > end + 3600))
