"""What the reference says of the files beside a log."""

RECORDS = """\
## Logs and the files beside them

`hts record check` reads delimited text (also packed with gzip, and UTF-16), and workbooks. It finds
out separator, decimal mark, heading and time by itself, and says what it took them for. Columns
belong to the thermocouple they are named after (`T1`, `TC 1`, `T1 weld 12 o'clock (degC)`) or to
the one on that channel of the recorder (`CH1`, `PV1`, `R2 ch 1`). A log with one reading in a row
beside the name of its channel is read, too. Where a file leaves something open, the program asks.

A log has at most 512 MB, packed or unpacked, and the text of one cell counts up to 200 letters.
Only regular files are read.

### The map of columns

For `run.csv` it is the file `run.yaml` beside it, or the one named with `--columns`. Everything in
it is optional.

```yaml
columns:              # thermocouple: name of its column; its number where no line has names
  T1: Sensor A
  T2: Sensor B
recorder: R2          # the log is of this recorder: CH1 is its channel 1
unit: degC            # of columns that state none; or {Sensor A: degF} for some
time: Date, Clock     # the column of the time, or two
time unit: min        # s, ms, min, h, d, hh:mm, mm:ss, serial (days of a spreadsheet), unix
day order: day        # or month, whichever comes first in 03/04/2026
zone: Europe/Oslo     # of clock times that state none; or +01:00
separator: ";"        # , ; tab | or blanks
decimal: ","
document: HT-0147     # what the record is of, for judging many at once
joint: W12
cycle: stress-relief
```

### Events

What people noted during the run: the file `run.events.yaml` beside `run.csv`, or the one named with
`--events`, or `events` in the map. A time is written as the record's clock shows it, with the date
where the record has one and it is not plain, or as the time since the start: `3 h 12 min`.

```yaml
- {at: 2026-11-24 10:05, kind: power lost}
- {at: 2026-11-24 10:20, kind: power back}
- {at: 11:10:30, kind: replaced, tag: T3, by: T3S}
- {at: 11:40, kind: heater lost, zone: bottom}
- {at: 11:55, kind: heater back, zone: bottom}
- {at: 12:00, kind: insulation opened, text: north half}
- {at: 12:10, kind: insulation closed}
- {at: 12:30, kind: note, text: reading taken by the inspector}
```

| kind | what it says |
|---|---|
| `replaced` | from then on the spare `by` counts in the place of `tag` |
| `power lost`, `power back` | the heaters had no power between them |
| `heater lost`, `heater back` | the heaters of `zone` gave nothing between them |
| `insulation opened`, `insulation closed` | the blanket was off between them |
| `note` | anything else, printed with the report |
| `note` of `start of welding`, `end of welding` | when the arc burned, for preheat |

A column of the log named `Event`, `Remark`, `Note`, `Comment` or `Marker` is read for the same
words.
"""
