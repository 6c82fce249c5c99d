"""Which rows of the compiled job changed."""

from hts.job.comparison import ChangedRow
from tests.job.comparison.texts import changed, named

P22 = named("p22-header")


def rows(*replacements: tuple[str, str], name: str = "p22-header") -> set[ChangedRow]:
    return {row for row in changed(named(name), *replacements).rows if row.part != "document"}


def test_a_step_by_its_number_in_the_text() -> None:
    """heat, heat, hold, cool, cool: the hold is the third entry."""
    assert rows(("for 2 h at most", "for 3 h at most")) == {
        ChangedRow("W12", "stress-relief", "step", "3")
    }
    first = "  heat to 300 degC\n"
    assert rows((first, f"{first}  heat to 400 degC at most 50 degC/h\n")) == {
        ChangedRow("W12", "stress-relief", "step", "2")
    }


def test_tag_zone_band_and_joint() -> None:
    edge = "T9   monitors heated edge    at "
    assert rows((f"{edge}12:00", f"{edge}11:00")) == {ChangedRow("W12", "", "thermocouple", "T9")}
    assert rows(
        (
            "zone bottom        from 4:30 to 7:30   power 21.6 kW",
            "zone bottom        from 4:30 to 7:30   power 20 kW",
        )
    ) == {ChangedRow("W12", "", "zone", "bottom")}
    assert ChangedRow("W12", "", "band", "heated band") in rows(("930 mm", "940 mm"))
    assert ChangedRow("W12", "", "joint", "cap width") in rows(
        ("cap width            42", "cap width            44")
    )
    assert rows(("sensor break            upscale", "sensor break            downscale")) == {
        ChangedRow("W12", "stress-relief", "setting", "sensor break")
    }
    assert rows(("reading every  1 h", "reading every  2 h")) == {
        ChangedRow("W12", "", "work", "during heat")
    }


def test_a_wall_reaches_the_steps_that_are_by_rule() -> None:
    """carbon-steel-butt: the hold time is by rule, the rates are stated above 300 degC."""
    found = rows(("29.1 mm measured", "31.8 mm measured"), name="carbon-steel-butt")
    assert ChangedRow("W07", "stress-relief", "limit", "hold time") in found
    assert ChangedRow("W07", "stress-relief", "step", "3") in found
    assert ChangedRow("W07", "", "band", "soak band") in found
    assert ChangedRow("W07", "", "limit", "soak band") in found


def test_a_limit_reaches_only_the_steps_it_counts_in() -> None:
    """branch-unequal: the rates are by rule, and count above 300 degC. The step that heats to
    300 degC is free on both sides (common sense, no source), the one to 692 degC is not."""
    found = rows(("26.8 mm measured", "31.8 mm measured"), name="branch-unequal")
    steps = {row.name for row in found if row.part == "step"}
    assert ChangedRow("W51", "stress-relief", "limit", "heating rate") in found
    assert "2" in steps and "1" not in steps


def test_addresses() -> None:
    found = changed(
        P22,
        ("for 2 h at most", "for 3 h at most"),
        ("    T11  monitors gradient edge  at 12:00,  675 mm downstream  channel 15\n", ""),
    )
    assert {"W12/stress-relief/hold-1/for", "W12/thermocouples/T11"} <= {
        change.address for change in found.changes
    }
