"""Names of welding processes. Letters of AWS A3.0 and numbers of ISO 4063, from memory."""

from __future__ import annotations

from hts.science.tables.fillers import FAMILIES, family
from hts.science.tables.welding_processes import NAMES, PROCESSES, answers_to, letters, processes
from tests.rows import each_row


@each_row(
    ("text", "named"),
    [
        ("GTAW root, SMAW fill", ("GTAW", "SMAW")),
        ("141/111", ("141", "111")),
        ("135 and 121", ("135", "121")),
        ("TIG and MMA", ("TIG", "MMA")),
        ("by hand", ()),
        ("SMAW 3.2 mm, WPS-12, E7018-1", ("SMAW",)),
    ],
)
def test_processes_named_in_a_text(text: str, named: tuple[str, ...]) -> None:
    assert processes(text) == named


@each_row(
    ("number", "first"),
    # ISO 4063: 111 metal arc with covered electrode, 121 submerged arc, 135 metal active gas,
    # 136 tubular cored active gas, 141 tungsten inert gas, 15 plasma, 72 electroslag.
    [("111", "SMAW"), ("121", "SAW"), ("135", "GMAW"), ("136", "FCAW"), ("141", "GTAW"),
     ("15", "PAW"), ("72", "ESW"), ("MMA", "SMAW"), ("TIG", "GTAW")],
)  # fmt: skip
def test_numbers_and_letters(number: str, first: str) -> None:
    assert letters(number) == first
    assert first in answers_to(number) and number in answers_to(first)


def test_a_number_is_not_another_number() -> None:
    assert "131" not in answers_to("135") and "13" in answers_to("135")
    assert len(NAMES) == len(set(NAMES)) == sum(1 + len(names) for names in PROCESSES.values())


@each_row(
    ("classification", "called"),
    [("E7018", "carbon-steel"), ("E7018-1 H4R", "carbon-steel"), ("E7018-A1", "A1"),
     ("E8018-B2", "B2"), ("ER80S-B2L", "B2"), ("E9018-B3", "B3"), ("E9015-B91", "B91"),
     ("ENiCrFe-3", "nickel"), ("ERNiCr-3", "nickel"), ("E309L-16", "austenitic"),
     ("ER316L", "austenitic"), ("E8018-C3", None)],
)  # fmt: skip
def test_family_of_a_filler(classification: str, called: str | None) -> None:
    # Classifications of AWS A5.1, A5.4, A5.5, A5.9, A5.11, A5.14, A5.28, from memory.
    assert family(classification) == called
    assert called is None or called in FAMILIES
