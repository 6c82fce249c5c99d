"""Where thermocouples go and what their loops read, against hand values and published tables."""

from fractions import Fraction as F
from math import pi

import pytest

from hts.base.text import Source
from hts.checking.rules.examples import BUTT
from hts.job.compiler import Job, compile_spec
from hts.job.compiler.tags import Tag
from hts.language.model import Loader, Spec
from hts.language.model.load import root_of
from tests.rich import texts
from tests.rows import each_row
from tests.texts import spec_of


def compiled(*changes: tuple[str, str]) -> Job:
    text = BUTT
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return compile_spec(spec_of(text, "x.hts"))


def tags(job: Job) -> dict[str, Tag]:
    return {tag.tag: tag for tag in job.joints[0].tags}


def test_one_row_for_each_thermocouple() -> None:
    assert list(tags(compiled())) == ["T1", "T2", "T1S", "T2S", "T3", "T4", "T5", "T6"]


@each_row(
    ("clock", "degrees", "millimetres"),
    [
        # pi * 323.8 mm = 1017.248 mm once round; ASME B36.10M: NPS 12 is 323.8 mm outside.
        ("12:00", F(0), 0.0),
        ("3:00", F(90), 254.312),
        ("6:00", F(180), 508.624),
        ("9:00", F(270), 762.936),
        ("12:10", F(5), 14.128),
        ("7:30", F(225), 635.780),
    ],
)
def test_arc_length(clock: str, degrees: F, millimetres: float) -> None:
    found = tags(
        compiled(
            ("T6   monitors heated edge    at 6:00, ", f"T6   monitors heated edge    at {clock}, ")
        )
    )["T6"]
    assert found.degrees == degrees
    assert found.arc is not None
    assert float(found.arc.value) == pytest.approx(millimetres, abs=0.001)
    assert float(found.arc.value) == pytest.approx(pi * 323.8 * float(degrees) / 360, abs=1e-9)


def test_arc_that_is_stated_stays_as_stated() -> None:
    found = tags(
        compiled(
            (
                "T6   monitors heated edge    at 6:00, ",
                "T6   monitors heated edge    arc 254.3 mm, ",
            )
        )
    )["T6"]
    assert found.arc is not None and found.arc.value == F(2543, 10)
    # 254.3 * 360 / (pi * 323.8) = 89.996 degrees.
    assert found.degrees is not None and float(found.degrees) == pytest.approx(89.996, abs=0.001)


def test_arc_is_on_the_part_the_thermocouple_sits_on() -> None:
    # ASME B36.10M: NPS 14 is 355.6 mm outside; half of pi * 355.6 mm is 558.575 mm.
    job = compiled(
        (
            "  pipe       NPS 12 schedule 120\n",
            "  side upstream of pipe NPS 14 schedule 100\n"
            "  side downstream of pipe NPS 12 schedule 120\n",
        ),
    )
    found = tags(job)
    upstream, weld = found["T4"], found["T2"]
    assert upstream.offset is not None and upstream.offset.side == "upstream"
    assert upstream.arc is not None
    assert float(upstream.arc.value) == pytest.approx(558.575, abs=0.001)
    # On the weld the greater of the two is what the tape goes round.
    assert weld.outside is not None and weld.outside.value == F(3556, 10)


# NIST ITS-90 thermocouple tables, reference junction 0 degC, mV: type K 705 degC 29.338 and
# 700 degC 29.129, less 25 degC 1.000; type N 700 degC 24.527 less 25 degC 0.659; type J 700 degC
# 39.132 less 25 degC 1.277. One unit of the last place is left to a sum of two rounded figures.
@each_row(
    ("type", "range", "reference", "millivolts"),
    [
        ("K", "690 .. 720 degC for 2 h target 705 degC", "25 degC", 28.338),
        ("K", "685 .. 730 degC for 2 h target 700 degC", "0 degC", 29.129),
        ("K", "685 .. 730 degC for 2 h target 700 degC", "25 degC", 28.129),
        ("N", "685 .. 730 degC for 2 h target 700 degC", "25 degC", 23.868),
        ("J", "685 .. 730 degC for 2 h target 700 degC", "25 degC", 37.855),
    ],
)
def test_millivolts_at_the_hold(type: str, range: str, reference: str, millivolts: float) -> None:
    job = compiled(
        ("thermocouples type K class 1", f"thermocouples type {type} class 1"),
        ("hold  700 .. 730 degC for 2 h", f"hold  {range}"),
        ("reference junction  25 degC", f"reference junction  {reference}"),
    )
    run = job.joints[0].hottest
    assert run is not None and run.proof is not None and run.proof.millivolts is not None
    assert float(run.proof.millivolts) == pytest.approx(millivolts, abs=0.0011)
    assert run.proof.reference_why.basis == "stated"


def test_reference_junction_is_assumed_and_said_to_be() -> None:
    job = compiled(("    reference junction  25 degC\n", ""))
    run = job.joints[0].hottest
    assert run is not None and run.proof is not None
    assert run.proof.reference.value == 25
    assert run.proof.reference_why.basis == "practice"


def test_limit_of_error_at_the_hold() -> None:
    # IEC 60584-1 type K class 1 above 375 degC: 0.004 of 715 = 2.86 K.
    run = compiled().joints[0].hottest
    assert run is not None and run.proof is not None and run.proof.wire is not None
    assert run.proof.wire.error.value == F(286, 100)
    # The certificate of the wire lot stands before the class.
    run = compiled(("    colours  ", "    error +/- 1.1 K\n    colours  ")).joints[0].hottest
    assert run is not None and run.proof is not None and run.proof.wire is not None
    assert run.proof.wire.error.value == F(11, 10)


def test_wire_colours_are_those_of_the_declared_standard() -> None:
    # IEC 60584-3: type K green, negative leg white. ASTM E230 extension grade: yellow and red.
    wire = compiled().joints[0].wire
    assert wire is not None and wire.couple is not None
    assert (wire.couple.positive, wire.couple.negative) == ("green", "white")
    wire = compiled(("IEC 60584-3", "ASTM E230")).joints[0].wire
    assert wire is not None and wire.cable is not None
    assert (wire.cable.positive, wire.cable.negative) == ("yellow", "red")


def test_channels_and_spares() -> None:
    found = tags(compiled())
    assert (found["T1"].controller.instrument, found["T1"].controller.number) == ("C1", 1)
    assert (found["T1S"].recorder.instrument, found["T1S"].recorder.number) == ("R1", 7)
    assert found["T1S"].spare_of == "T1"
    assert found["T1S"].zone == "top"
    assert found["T3"].controller.number is None


@each_row(
    ("offset", "toe"),
    # The cap is 36 mm wide: its toes lie 18 mm from the centreline of the long seam.
    [("48 mm", F(30)), ("18.5 mm", F(1, 2)), ("18 mm", F(0)), ("17 mm", None)],
)
def test_how_far_from_the_toe_of_a_weld_told_along_it(offset: str, toe: F | None) -> None:
    path = texts.PATHS["seam-and-pad"]
    old = "T4   monitors soak edge    along 400 mm,   48 mm side A"
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    source = Source(text.replace(old, old.replace("48 mm", offset)), path.name, str(path))
    made = compile_spec(Spec(source, Loader(root_of(str(path)))))
    found = next(tag for tag in made.joints[0].tags if tag.tag == "T4").from_toe
    assert (None if found is None else found.to("mm")) == toe
