"""Errors of instruments stated as a share of the reading or of the span; figures by hand."""

from __future__ import annotations

import pytest

from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.checker import check_spec
from hts.checking.rules.examples import BUTT
from hts.job.compiler import compile_spec
from hts.job.demands.asked import Asked
from hts.job.demands.guard import guard
from hts.language.model.instrument import error_at
from tests.rows import each_row
from tests.texts import spec_of

_R1 = BUTT.index("recorder R1 {")
_AT = BUTT.index("error", _R1)
_LINE = BUTT[_AT : BUTT.index("\n", _AT)]


def _with(error: str, more: str = "") -> str:
    text = BUTT[:_AT] + error + BUTT[_AT + len(_LINE) :]
    return text.replace("  governed by", "  follows P-1\n  governed by") + more if more else text


@each_row(
    ("error", "at", "kelvin"),
    [
        ("error +/- 1.5 degC", "700 degC", "1.5"),
        ("error of reading 0.25 %", "700 degC", "1.75"),
        ("error of reading 0.25 %", "1292 degF", "1.75"),
        # The channels read 0 .. 1200 degC.
        ("error of span 0.1 %", "700 degC", "1.2"),
        ("error +/- 1 K\n  error of reading 0.25 %\n  error of span 0.1 %", "700 degC", "3.95"),
        ("error of reading 0.25 %", None, "3"),
    ],
)
def test_in_kelvin_at_a_temperature(error: str, at: str | None, kelvin: str) -> None:
    spec = spec_of(_with(error))
    assert [found.message for found in spec.findings] == []
    where = None if at is None else Quantity.read(at, TEMPERATURE)
    found = error_at(spec.file.recorders[0], where)
    assert found is not None and float(found.value) == pytest.approx(float(kelvin))


def test_one_of_the_three_has_to_be_stated() -> None:
    told = spec_of(_with('clock "UTC"')).findings
    assert any("error" in found.message for found in told)


@each_row(
    ("error", "most", "met"),
    [
        # The hold goes up to 730 degC: 0.25 % of it is 1.825 K.
        ("error of reading 0.25 %", "2 K", True),
        ("error of reading 0.25 %", "1.8 K", False),
        ("error +/- 1 K\n  error of reading 0.25 %", "2 K", False),
        ("error of span 0.1 %", "1.2 K", True),
        ("error of span 0.1 %", "1.1 K", False),
    ],
)
def test_a_demand_in_kelvin_on_an_error_in_percent(error: str, most: str, met: bool) -> None:
    procedure = (
        "\nprocedure P-1 {\n  revision 1 on 2026-01-01\n"
        f"  requires recorder error at most {most}\n}}\n"
    )
    findings = check_spec(spec_of(_with(error, procedure)), "2026-11-25")
    told = [found.kind.name for found in findings if found.kind.name == "demand-not-met"]
    assert bool(told) is not met


def test_the_guard_band_takes_it() -> None:
    """Stated either way the same error gives the same band."""
    widths = []
    # The setpoint is 715 degC: 0.2 % of it is 1.43 K.
    for error in ("error +/- 1.43 K", "error of reading 0.2 %"):
        text = _with(error).replace(
            "  rate margin  ", "  guard band  expanded uncertainty\n  rate margin  "
        )
        job = compile_spec(spec_of(text))
        (sheet,) = job.joints
        run = next(run for run in sheet.runs if run.program.kind == "cycle")
        widths.append(guard(Asked(job, sheet, run)).width)
    assert widths[0] == pytest.approx(widths[1]) and widths[0] > 0
