"""A preheat that nobody's controller runs: each limit a person reads off, worked by hand."""

from __future__ import annotations

import pytest

from hts.checking.rules.examples import BASES
from hts.job.compiler.units import Units
from hts.job.outputs import by_hand
from hts.job.outputs.show import Shown
from tests.paper.packet.jobs import of_text

LEAST = "  at least          150 degC\n"
RAMPS = "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm\n"
KEPT = "  maintain at least 110 degC\n  heating rate at most 55 degC/h\n  soak 20 min\n"
FASTEST = "Heating no faster than"


def _told(*changes: tuple[str, str]) -> dict[str, tuple[str, str]]:
    text = BASES["bake"]
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    (sheet,) = of_text(text).joints
    (run,) = [run for run in sheet.runs if run.program.kind == "preheat"]
    assert run.program.by_hand
    rows = by_hand.rows(Shown(Units(("SI", "US"))), run)
    return {what: (value, cited) for what, value, _, cited in rows}


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        # Wire of class 1 at 150 degC 1.5 K, a reading 2 K, the swing 5 K: 158.5 degC, rounded up;
        # 159 degC is 318.2 degF. No limit of a rate begins below 315 degC.
        (
            (),
            {
                "At least, before every pass": "150 °C (302 °F)",
                "Interpass at most": "315 °C (599 °F)",
                "Aim for": "159 °C (318 °F)",
                FASTEST: None,
            },
        ),
        # The procedure limits the rate throughout: 150 * 1.8 = 270.
        (
            ((RAMPS, "  heating rate     at most 150 degC/h\n"),),
            {FASTEST: "150 °C/h (270 °F/h)"},
        ),
        # Stated and stricter; 110 degC is 230 degF and 55 * 1.8 = 99.
        (
            (
                (RAMPS, "  heating rate     at most 150 degC/h\n"),
                (LEAST, LEAST + KEPT),
            ),
            {
                "While welding is interrupted, at least": "110 °C (230 °F)",
                FASTEST: "55 °C/h (99 °F/h)",
                "At preheat before the arc": "20 min",
            },
        ),
    ],
)
def test_each_limit(changes: tuple[tuple[str, str], ...], told: dict[str, str | None]) -> None:
    made = _told(*changes)
    assert {what: made.get(what, (None,))[0] for what in told} == told


def test_a_limit_names_who_set_it() -> None:
    made = _told((RAMPS, "  heating rate     at most 150 degC/h\n"))
    assert made[FASTEST][1].startswith("P-07, revision 2, line ")
    assert made["Interpass at most"][1].startswith("this specification, x.hts line ")
