"""What people are used to writing in another form, or paste from elsewhere: one finding, whose help
shows the form to write. The habits are common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from hts.base.text import Source
from hts.checking.checker.run import check_spec
from hts.language.model import Loader, Spec
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.suggest import nearest
from hts.limits.books import UnknownBook, book
from tests.language.vocabulary.read import inside, read
from tests.rows import each_row

SPECS = Path(__file__).parents[3] / "specs"

#: (place, text, the form to write as the help shows it)
HABITS = [
    ("joint", "line “12-MS-1”", 'straight double quotes: "12-MS-1"'),
    ("joint", "line ‘12-MS-1’", 'straight double quotes: "12-MS-1"'),
    ("joint", "line „12-MS-1“", 'straight double quotes: "12-MS-1"'),
    ("joint", "line '12-MS-1'", 'straight double quotes: "12-MS-1"'),
    ("joint", "wall 25.4\u00a0mm", "ordinary blank"),
    ("joint", "wall 25.4\u202fmm", "ordinary blank"),
    ("joint", "wall\u3000 25.4 mm", "ordinary blank"),
    ("joint", "wall ２5.4 mm", "write 25.4"),
    ("cycle", "hold 690–720 degC for 2 h", "690 .. 720"),
    ("cycle", "hold 690 — 720 degC for 2 h", "690 .. 720"),
    ("cycle", "hold 690 to 720 degC for 2 h", "690 .. 720 degC"),
    ("joint", "axis vertical at −5 deg", "-5"),
    ("joint", "wall 25,4 mm", "25.4"),
    ("joint", "wall = 25.4 mm", "remove the sign"),
    ("joint", "wall: 25.4 mm", "wall 25.4 mm"),
    ("joint", 'wall 1"', "write in for inches"),
    ("joint", "cap width 30 mm;", "new line"),
    ("joint", "wall sch 80", "pipe NPS 12 schedule 80"),
    ("joint", "pipe NPS 12 sch 80", "`schedule 80`"),
    ("joint", "pipe NPS 12 sch80", "`schedule 80`"),
    ("joint", "pipe 12 in schedule 80", "NPS 12"),
    ("joint", "wall 2S.4 mm", "25.4 mm"),
    ("cycle", "heat to 7O5 degC", "705 degC"),
    ("cycle", "hold 69O .. 720 degC for 2 h", "690"),
    ("cycle", "heat to 700 degC max 200 degC/h", "`at most`"),
    ("cycle", "alarm under 680 degC", "`alarm below`"),
    ("procedure", "heated band minimum 5 t", "`at least`"),
    ("heating", "gap at 12 o'clock", "12:00"),
    ("heating", "gap at 12 o’clock", "12:00"),
    ("thermocouples", "T1 at 12 o'clock channel 1", "12:00"),
    ("thermocouples", "T1 at 3 channel 1", "3:00"),
    ("thermocouples", "T1 at arc 478.8 mm channel 1", "arc 478.8 mm"),
    ("thermocouples", "T1 beside it", "at 12:15, on weld"),
    ("thermocouples", "T1 at 12:00 ch 1", "`channel 1`"),
    ("thermocouples", "T1 at 12:00 ch1", "`channel 1`"),
    ("job", 'history { B on 12.11.2026 "x" }', "2026-11-12"),
    ("job", 'history { B on 25/11/2026 "x" }', "first: 2026-11-25"),
    ("job", 'history { B on 12/11/2026 "x" }', "2026-11-12 or 2026-12-11"),
    ("job", 'history { B on 12 Nov 2026 "x" }', "2026-11-12"),
    ("job", 'history { B on 20261112 "x" }', "2026-11-12"),
    ("file", "// a comment", "begins with #"),
]

#: The book as written, and as it is to be written.
BOOKS = [
    ("ASME B31.3", "write asme-b31.3 edition 2018"),
    ('"ASME B31.3"', "write asme-b31.3 edition 2018"),
    ("ASME B31.3 2018", "write asme-b31.3 edition 2018"),
    ("local-heating, ASME B31.3", "write asme-b31.3 edition 2018"),
    ("EN 13445-4 2021", "write en-13445-4 edition 2021"),
    ("local heating", "write local-heating"),
]

JOB = 'spec 1\njob "A" {{\nnumber "1"\nrevision A on 2026-10-02\n{}\n{}\n}}\n'
SIGNED = 'signed {\nprepared "B"\n}'


@each_row("habit", HABITS, ids=lambda habit: ascii(habit[1]))
def test_the_help_shows_the_form_to_write(habit: tuple[str, str, str]) -> None:
    place, text, form = habit
    _, tellings = read(inside(place, text))
    assert len(tellings) == 1, tellings
    assert form in tellings[0].help


@each_row(("written", "form"), BOOKS)
def test_a_book_called_by_its_title(written: str, form: str) -> None:
    (told,) = read(JOB.format(f"governed by {written}", SIGNED))[1]
    assert written.endswith(told.at)
    assert told.help == form


def test_a_book_without_its_publisher() -> None:
    with pytest.raises(UnknownBook) as caught:
        book("B31.3")
    assert caught.value.suggestion == "asme-b31.3"


def test_a_title_in_a_whole_specification_is_one_finding() -> None:
    # A book nobody knows, and a `use` that cannot be read, have no consequences told besides.
    text = (SPECS / "p22-header.hts").read_text()
    for old, new in (
        ("asme-b31.3 edition 2016", "ASME B31.3"),
        ("asme-b31.3 edition 2016", "B31.3 edition 2016"),
        ('use "library/standing-orders.hts"', "use “library/standing-orders.hts”"),
    ):
        assert old in text
        source = Source(text.replace(old, new, 1), "specs/p22-header.hts")
        found = check_spec(Spec(source, Loader(str(SPECS))), "2026-11-29")
        assert len(found) == 1, [finding.message for finding in found]


def test_entries_parted_by_semicolons() -> None:
    text = JOB.format("governed by local-heating", 'signed { prepared "A"; checked "B" }')
    (told,) = read(text)[1]
    assert (told.at, "new line" in told.help) == (";", True)


def test_a_needed_entry_in_a_wrong_block_is_not_missed_besides() -> None:
    text = inside("joint", "") + JOB.format("", "governed by local-heating\n" + SIGNED)[6:]
    assert read(text)[1] == []
    (told,) = read(text.replace("governed by local-heating\n", "", 1).replace(
        "kind girth butt", "kind girth butt\ngoverned by local-heating"
    ))[1]  # fmt: skip
    assert (told.name, told.help) == ("misplaced-entry", "it belongs in: `job` or `procedure`")


def test_each_misplaced_entry_makes_up_for_one_only() -> None:
    recorder = "recorder {} {{\nchannels 6 type K range 0 .. 1200 degC\nerror +/- 1.5 degC\n}}\n"
    text = inside("joint", "interval 60 s") + recorder.format("R1") + recorder.format("R2")
    assert [told.name for told in read(text)[1]] == ["misplaced-entry", "missing-entry"]


def _everything(cls: type[Entry], seen: set[type[Entry]]) -> Iterator[list[str]]:
    """The words that stand for choice at each place of the language."""
    if cls in seen:
        return
    seen.add(cls)
    yield [" ".join(f.words) for fields in cls.labels.values() for f in fields]
    yield [" ".join(f.words) for fields in cls.children.values() for f in fields]
    for field in cls.fields.values():
        yield list(getattr(field.type, "choices", ()))
        for inner in (*field.family, *([field.entry] if field.entry else [])):
            yield from _everything(inner, seen)


PLACES = [words for words in _everything(File, set()) if words]

OPPOSITES = [
    ("least", "most"), ("above", "below"), ("before", "after"), ("upstream", "downstream"),
    ("inside", "outside"), ("horizontal", "vertical"), ("run", "branch"), ("with", "against"),
    ("upscale", "downscale"), ("A", "B"),
]  # fmt: skip


def test_the_opposite_is_never_proposed() -> None:
    assert len(PLACES) > 100
    proposed = []
    for known in PLACES:
        for words in known:
            contrary = [no + words for no in ("un", "non-", "not ", "no ", "without ")]
            for pair in OPPOSITES:
                for this, other in (pair, pair[::-1]):
                    if this in words.split():
                        contrary.append(" ".join(other if w == this else w for w in words.split()))
            for each in contrary:
                guess = nearest(each, known)
                if guess == words and each not in known:
                    proposed.append((each, guess))
    assert proposed == []


@each_row("slip", ["stream", "side C", "at", "dnstream"])
def test_where_either_may_be_meant_none_is_proposed(slip: str) -> None:
    assert (
        nearest(slip, ["upstream", "downstream", "side A", "side B", "at least", "at most"]) is None
    )


@each_row(
    ("slip", "meant"),
    [("at lest", "at least"), ("at mots", "at most"), ("upsteam", "upstream"),
     ("downstrem", "downstream"), ("sdie A", "side A"), ("abvoe", "above")],
)  # fmt: skip
def test_a_plain_slip_is_still_mended(slip: str, meant: str) -> None:
    known = ["upstream", "downstream", "side A", "side B", "at least", "at most", "above", "below"]
    assert nearest(slip, known) == meant
