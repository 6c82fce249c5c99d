"""An outlook in words, for a terminal or a file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from hts.base.quantities.clock import ClockPosition
from hts.predict.inputs import inputs_of
from hts.predict.outlook import HOLDS, Instant, Outlook, Range
from hts.predict.powers import cells, difference, powers_of
from hts.predict.scatter import CLOCKS, DEPTHS, SAMPLES, SEED
from hts.predict.told import LIMITS, MODEL, NOT_FOR, PREDICTION
from hts.predict.widths import Width
from hts.science.field.state import Extreme

DEPTH_WORDS = {0.0: "outside", 0.25: "a quarter in", 0.5: "mid-wall",
               0.75: "three quarters in", 1.0: "bore"}  # fmt: skip
_WIDTH = 100
#: K. An input that moves the lowest by less is not worth a line.
_TOLD = 0.1


def clock_words(degrees: float) -> str:
    """A clock position, to five minutes."""
    return str(ClockPosition(Fraction(round(degrees / 2.5) * 5, 2) % 360))


def place_words(place: Extreme, mirrored: bool) -> str:
    """Where a place is: `bore, 6:00, 50 mm from the weld on either side`."""
    depth = DEPTH_WORDS.get(place.depth, f"{100 * place.depth:.0f} % of the wall in")
    if abs(place.z) < 5e-4:
        return f"{depth}, {clock_words(place.degrees)}, on the weld"
    side = "on either side" if mirrored else ("far side" if place.z > 0 else "near side")
    return (
        f"{depth}, {clock_words(place.degrees)}, {1000 * abs(place.z):.0f} mm from the weld {side}"
    )


def spread_words(value: Range) -> str:
    """`701 (693 to 709)`."""
    return f"{value.stated:.0f} ({value.low:.0f} to {value.high:.0f})"


def report(outlook: Outlook, version: str, document: str = "", alike: Sequence[str] = ()) -> str:
    """The whole outlook as text; `document` names specification and fingerprint, `alike` the
    other treatments of which it says the same."""
    return "\n".join(_lines(outlook, version, document, alike)) + "\n"


def _lines(outlook: Outlook, version: str, document: str, alike: Sequence[str]) -> Iterator[str]:
    setting = outlook.setting
    yield f"{setting.joint}, {setting.treatment}: predicted temperatures"
    if alike:
        yield from _wrapped(f"The same of {'; '.join(alike)}: all that it rests on is alike.")
    yield from _wrapped(PREDICTION)
    yield from _wrapped(f"hts {version}; {MODEL}; {SAMPLES} samples, seed {SEED}"
                        + (f"; {document}" if document else ""))  # fmt: skip
    yield ""
    yield from _summary(outlook)
    for answer in outlook.answers:
        mark = "as asked" if answer.verdict == HOLDS else "NOT as asked"
        yield from _wrapped(
            f"{mark:13} {answer.asked}, by {answer.demanded.by}: {answer.predicted}; "
            f"{answer.verdict} (asked in {100 * setting.demands.confidence:.0f} % of cases)", 14
        )  # fmt: skip
    for instant in (outlook.ramp_end, outlook.hold_end):
        yield ""
        yield from _table(instant)
    yield ""
    yield from _power(outlook)
    yield ""
    yield from _wrapped("Which input to settle first: shift of the lowest, at 5 % and 95 % of each")
    for shift in outlook.scatter.shifts:
        if shift.span < _TOLD:
            continue  # this one has nothing to settle
        yield f"  {shift.what:45} {shift.low:+6.1f} {shift.high:+6.1f} K"
    if outlook.widths:
        yield ""
        yield from _widths(outlook)
    yield ""
    yield "What it rests on"
    for one in inputs_of(setting):
        spread = f"; {one.spread}" if one.spread else ""
        yield from _wrapped(f"  {one.what}: {one.value} ({one.source}{spread})", 4)
    for line in setting.assumed:
        yield from _wrapped(f"  assumed: {line}", 4)
    yield ""
    yield "Limits of the model"
    for line in LIMITS:
        yield from _wrapped(f"  - {line}", 4)
    yield "It must not be used"
    for line in NOT_FOR:
        yield from _wrapped(f"  - {line}", 4)


def summary(outlook: Outlook) -> list[tuple[str, str]]:
    """The findings of a prediction, each with its name."""
    setting, last = outlook.setting, outlook.hold_end
    mirrored = outlook.course.fields[0].mesh.mirrored
    low, high = outlook.window
    if outlook.lag is None:
        lag = "the whole band does not come into the range before the hold ends"
    else:
        lag = f"the whole band comes into the range {outlook.lag / 60:.0f} min after the setpoint"
    found = [
        ("range", f"{low:.0f} .. {high:.0f} °C, setpoint {setting.target:.0f} °C"),
        ("lowest of soak band", f"{spread_words(last.lowest)} °C at the end of the hold: "
         f"{place_words(last.coldest, mirrored)}"),
        ("highest of soak band", f"{spread_words(last.highest)} °C: "
         f"{place_words(last.hottest, mirrored)}"),
        ("whole band in range", f"{outlook.held / 60:.0f} of {outlook.hold / 60:.0f} min of the "
         f"hold; at its end in {100 * outlook.share:.0f} of 100 cases"),
        ("lag", lag),
    ]  # fmt: skip
    if outlook.margin is not None:
        found.append(
            ("below lower critical", f"the highest stays {outlook.margin.stated:.0f} K "
             f"({outlook.margin.low:.0f} to {outlook.margin.high:.0f}) below "
             f"{setting.critical:.0f} °C ({setting.critical_of})")
        )  # fmt: skip
    found += [
        ("axial gradient", f"{outlook.slope.kelvin:.0f} K over {1000 * outlook.slope.over:.0f} mm "
         f"at the steepest, {1000 * abs(outlook.slope.z):.0f} mm from the weld"),
        ("beyond the band", f"{100 * outlook.edge:.0f} % of the edge's temperature is left "
         "2 √(R t) beyond it" + ("" if outlook.edge >= 0.5 else ": less than half")),
    ]  # fmt: skip
    if outlook.dip > 0.0:
        found.append(
            ("beside a gap", f"up to {outlook.dip:.0f} K less for {1000 * setting.gap:.0f} mm the "
             "whole length of the band; mats smear it")
        )  # fmt: skip
    if not setting.bore_known:
        found.append(
            ("bore", f"its state is not known: {setting.bore.low:.0f} to {setting.bore.high:.0f} "
             "W/m²K are all in the spread; say `bore state`, `liner`, `ends` or `draught`")
        )  # fmt: skip
    return found


def _summary(outlook: Outlook) -> Iterator[str]:
    for name, words in summary(outlook):
        yield from _wrapped(f"{name:22} {words}", 23)


def _table(instant: Instant) -> Iterator[str]:
    yield f"Soak band at the {instant.name}, {instant.seconds / 3600:.2f} h: °C, 5 to 95 %"
    yield f"  {'':20}" + "".join(f"{clock_words(clock):>20}" for clock in CLOCKS)
    for depth in DEPTHS:
        for name, at in (("lowest", "lowest"), ("highest", "highest")):
            cells = [spread_words(getattr(row, at)) for row in instant.rows if row.depth == depth]
            label = f"{DEPTH_WORDS[depth] if at == 'lowest' else '':12.12}{name:>8}"
            yield f"  {label:20}" + "".join(f"{cell:>20}" for cell in cells)


def _power(outlook: Outlook) -> Iterator[str]:
    yield f"Power by zone, kW {'':12}{'predicted':>20}{'quick estimate':>22}"
    yield f"{'':30}{'most':>10}{'at the hold':>13}{'to heat':>9}{'to hold':>10}{'it has':>10}"
    for one in powers_of(outlook):
        zone, most, holding, heat, hold, has = cells(one)
        yield f"  {zone:28.28}{most:>10}{holding:>13}{heat:>9}{hold:>10}    {has}"
    yield from _wrapped(" ".join(difference(outlook.setting)))


def _widths(outlook: Outlook) -> Iterator[str]:
    stated = 2000 * outlook.setting.heated
    yield from _wrapped(
        f"Narrowest heated band that keeps the soak band within {outlook.allowed:.0f} K below the "
        f"setpoint; the specification has {stated:.0f} mm, and "
        "the width the rules ask for stays in force"
    )
    for width in outlook.widths:
        yield from _wrapped(f"  bore {width.state:18} {width_words(width)}", 25)


def width_words(width: Width) -> str:
    """The narrowest band, or why there is none."""
    if width.band is not None:
        return f"{1000 * width.band:.0f} mm, with all inputs as stated and time to settle"
    return (
        f"none: even an endless band leaves {width.left:.0f} K, for that is what the heat lost in "
        "the bore takes to cross the wall; a liner helps, width does not"
    )


def _wrapped(text: str, indent: int = 0) -> list[str]:
    from textwrap import wrap

    lead = text[: len(text) - len(text.lstrip())]
    return wrap(
        text.strip(), _WIDTH, initial_indent=lead, subsequent_indent=" " * indent,
        drop_whitespace=True, break_on_hyphens=False,
    ) if "  " not in text.strip() else _kept(text, indent)  # fmt: skip


def _kept(text: str, indent: int) -> list[str]:
    """Wrapped, the columns before the indent left as they are."""
    from textwrap import wrap

    head, rest = text[:indent], text[indent:]
    lines = wrap(rest, _WIDTH - indent, break_on_hyphens=False) or [""]
    return [head + lines[0], *(" " * indent + line for line in lines[1:])]
