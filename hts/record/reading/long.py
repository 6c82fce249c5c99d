"""A log with one reading in a row, beside the name of its channel, as one with a column for each.

Time,Channel,Value
2026-11-24 06:12:00,T1,20.5
2026-11-24 06:12:00,T2,21.3
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from hts.record.errors import RecordError
from hts.record.reading import states, time_parts
from hts.record.reading.options import Options
from hts.record.reading.sniff import Layout
from hts.record.reading.stamps import NAMES, words
from hts.record.reading.units import temperature_unit

if TYPE_CHECKING:
    import polars as pl

_CHANNELS = (
    "channel", "channel name", "channel no", "channel number", "ch", "chan", "tag", "tag name",
    "name", "sensor", "thermocouple", "tc", "point", "signal", "id", "parameter", "variable",
    "series", "input", "measuring point", "no", "no.",
)  # fmt: skip
_VALUES = (
    "value", "reading", "temperature", "temp", "pv", "measurement", "measured", "data", "result",
    "measured value", "process value",
)  # fmt: skip
_UNITS = ("unit", "units", "uom", "eu")
#: Names of channels: more are none.
_MOST = 500


class Wide(NamedTuple):
    """`frame` has as many rows as before: all readings of a time stand in its first row, the others
    are empty, so that every row keeps its line. `note` is to be said."""

    frame: pl.DataFrame
    layout: Layout
    note: str


class _Roles(NamedTuple):
    channel: int
    value: int
    unit: int | None
    state: int | None
    time: tuple[int, ...]


def widened(frame: pl.DataFrame, name: str, layout: Layout, options: Options) -> Wide | None:
    """None for a log that is not laid out so. Raises RecordError for two readings of a channel at
    one time, and for a channel in two units."""
    import polars as pl

    roles = _roles(layout, options)
    if roles is None:
        return None
    rows = frame.select(
        pl.int_range(pl.len(), dtype=pl.UInt32).alias("row"),
        *(_text(at).alias(f"time {n}") for n, at in enumerate(roles.time)),
        # With a mark of its own no channel has the name of another column.
        ("=" + _text(roles.channel)).alias("channel"),
        # Read as numbers already they stay so: as text they would have another decimal mark.
        _value(frame, roles).alias("value"),
        (_text(roles.unit) if roles.unit is not None else pl.lit(None)).alias("unit"),
    ).drop_nulls(["time 0", "channel"])
    by = [f"time {n}" for n in range(len(roles.time))]
    channels = rows["channel"].unique(maintain_order=True).to_list()
    # A counter of rows beside one column of readings looks alike, and no time has two rows.
    if not rows.select(by).is_duplicated().any() or len(channels) > _MOST:
        return None
    _refuse_two(rows, by, f"{name}:{layout.first + 1}")
    names = [channel[1:] for channel in channels]
    units = _units(rows, name, layout, roles, channels)
    first = rows.group_by(by, maintain_order=True).agg(pl.col("row").min())
    wide = rows.pivot(on="channel", index=by, values="value", aggregate_function="first")
    columns = [*by, *channels]
    full = (
        pl.DataFrame({"row": range(len(frame))}, schema={"row": pl.UInt32})
        .join(wide.join(first, on=by), on="row", how="left", maintain_order="left")
        .select(pl.col(column).alias(str(at)) for at, column in enumerate(columns))
    )
    heads = (*(layout.names[at] for at in roles.time), *names)
    return Wide(
        full,
        layout._replace(
            width=len(columns),
            names=heads,
            units=(*(layout.units[at] for at in roles.time), *units),
            aliases=(),
            numbers=frozenset(),
        ),
        f"{len(names)} channels stand below each other, one reading in a row.",
    )


def _roles(layout: Layout, options: Options) -> _Roles | None:
    if not layout.line or not 3 <= layout.width <= 12:
        return None
    said = [re.sub(r"[\s_]+", " ", word).strip() for word in words(layout.names)]
    values = [at for at, word in enumerate(said) if word in _VALUES]
    units = [at for at, word in enumerate(said) if word in _UNITS]
    parts = time_parts.columns(layout.names)
    if options.time is not None:
        wanted = words(tuple(part.strip() for part in options.time.split(",")))
        time = tuple(at for at, word in enumerate(words(layout.names)) if word in wanted)
    else:
        time = parts or tuple(
            at for at, word in enumerate(said) if any(_plain(word) in kind for kind in NAMES)
        )
    channels = [at for at, word in enumerate(said) if word in _CHANNELS and at not in time]
    if len(values) != 1 or not time or not channels:
        return None
    # Of a number and a name the name is the channel.
    named = [at for at in channels if said[at] not in ("no", "no.", "id")] or channels
    state = next((at for at, word in enumerate(said) if word in states.NAMES), None)
    return _Roles(named[0], values[0], units[0] if units else None, state, time)


def _plain(name: str) -> str:
    """Without what stands in brackets behind it, as the zone of a clock does."""
    return re.sub(r"\s*[(\[][^)\]]*[)\]]$", "", name)


def _value(frame: pl.DataFrame, roles: _Roles) -> pl.Expr:
    """The reading, where nothing beside it says that it is none."""
    import polars as pl

    at = roles.value
    value = pl.col(str(at)) if frame.schema[str(at)] == pl.Float64 else _text(at)
    bad = states.bad_words(frame[str(roles.state)]) if roles.state is not None else []
    if not bad:
        return value
    return pl.when(pl.col(str(roles.state)).is_in(bad)).then(None).otherwise(value)


def _text(at: int) -> pl.Expr:
    import polars as pl

    return pl.col(str(at)).cast(pl.String).str.strip_chars().replace("", None)


def _refuse_two(rows: pl.DataFrame, by: list[str], place: str) -> None:
    """A row may be there twice; another reading of the same channel at the same time may not."""
    other = rows.unique([*by, "channel", "value"], maintain_order=True)
    other = other.filter(other.select(*by, "channel").is_duplicated())
    if len(other):
        name, first = place.rsplit(":", 1)
        channel, time = other.row(0, named=True)["channel"], other.row(0, named=True)["time 0"]
        second = other.filter((other["channel"] == channel) & (other["time 0"] == time)).row(
            1, named=True
        )
        raise RecordError(
            f"{name}:{int(first) + second['row']}",
            f"{channel[1:]} has a second reading at {time}",
            "correct it in a copy of the file",
        )


def _units(
    rows: pl.DataFrame, name: str, layout: Layout, roles: _Roles, channels: list[str]
) -> list[str]:
    if roles.unit is None:
        return [layout.units[roles.value]] * len(channels)
    by_channel: dict[str, str] = {}
    pairs = rows.select("channel", "unit").unique(maintain_order=True)
    for channel, unit in pairs.iter_rows():
        known = by_channel.setdefault(channel, unit or "")
        if temperature_unit(known) != temperature_unit(unit or ""):
            raise RecordError(
                name, f"{channel[1:]} has readings in two units", "export it in one unit"
            )
    return [by_channel.get(channel, "") for channel in channels]
