"""A comparison as text."""

from __future__ import annotations

from textwrap import wrap

from hts.checking.report.terminal import printable
from hts.predict.told import NOT_FOR, PREDICTION
from hts.record.expected.comparison import BoreEstimate, Comparison, Trace

_WIDTH = 100
HEADS = ("Thermocouple", "Mean, K", "In the hold, K", "Greatest, K")


def write(comparison: Comparison | str) -> str:
    """The comparison, every line printable; why there is none where it is a reason."""
    lines = ["", "predicted against recorded", *wrap(PREDICTION, _WIDTH)]
    if isinstance(comparison, str):
        return "\n".join(map(printable, [*lines, f"there is none: {comparison}"])) + "\n"
    lines.append(
        f"  {HEADS[0]:16}{HEADS[1]:>12}{HEADS[2]:>18}{HEADS[3]:>14}   recorded less predicted"
    )
    for trace in comparison.traces:
        mean, hold, worst = residuals(trace)
        lines.append(f"  {trace.tag[:15]:16}{mean:>12}{hold:>18}{worst:>14}")
    if comparison.bore is not None:
        lines += wrap(bore_words(comparison.bore), _WIDTH)
    for note in comparison.notes:
        lines += wrap(f"- {note}", _WIDTH, initial_indent="  ", subsequent_indent="    ")
    lines.append("It must not be used")
    for line in NOT_FOR:
        lines += wrap(f"- {line}", _WIDTH, initial_indent="  ", subsequent_indent="    ")
    return "\n".join(map(printable, lines)) + "\n"


def residuals(trace: Trace) -> tuple[str, str, str]:
    """Mean, mean in the hold and greatest, recorded less predicted."""
    if trace.controls:
        return "drives it", "", ""
    return _kelvin(trace.mean), _kelvin(trace.in_hold), _kelvin(trace.worst)


def bore_words(bore: BoreEstimate) -> str:
    """The estimate in one sentence, or that there is none."""
    if not bore.told:
        return (
            "Bore: the thermocouples that were recorded hardly hang on it, so that nothing is "
            "estimated."
        )
    return (
        f"Bore, an estimate and no measurement: about {bore.best:.0f} W/m²K fits best, "
        f"{bore.low:.0f} to {bore.high:.0f} about as well; the specification's state stands for "
        f"{bore.stated:.0f} W/m²K. Insulation and thermocouples that are off look the same."
    )


def _kelvin(value: float | None) -> str:
    return "no reading" if value is None else f"{value:+.0f}"
