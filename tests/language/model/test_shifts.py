"""The hours of crews, beside every minute of a day counted one by one."""

from __future__ import annotations

import itertools
import random

from hts.language.model.shifts import Shift, clock, day, lasting, length, longest, shifts, unwatched
from tests.language.vocabulary.read import inside, read
from tests.rows import each_row


def crews(*lines: str) -> list:
    file, tellings = read(inside("job", "\n".join(f"crew {line}" for line in lines)))
    assert tellings == []
    return file.job.crews


@each_row(
    ("times", "begin", "minutes"),
    [
        ("from 06:00 to 18:00", 360, 720),
        ("from 18:00 to 06:00", 1080, 720),
        ("from 22:30 to 00:15", 1350, 105),
        ("from 06:00 to 06:00", 360, 1440),
        ("from 00:00 to 24:00", 0, 1440),
        ("from 00:00 to 00:01", 0, 1),
    ],
)
def test_the_hours_of_a_crew(times: str, begin: int, minutes: int) -> None:
    (crew,) = crews(f"days {times} watches 3")
    assert shifts([crew]) == [Shift("days", begin, begin + minutes, 3)]
    assert length(crew) == minutes


def test_a_crew_that_could_not_be_read() -> None:
    file, _ = read(inside("job", "crew a from 06:00 watches 3\ncrew b from 18:00 to 06:00"))
    assert shifts(file.job.crews) == [] and length(file.job.crews[0]) == 0


def test_a_day_is_that_of_each_minute() -> None:
    for seed in range(200):
        chance = random.Random(seed)
        stated = []
        for name in range(chance.randrange(4)):
            begin = chance.choice([0, 360, 1080, 1439, chance.randrange(1440)])
            lasts = chance.choice([1, 480, 720, 1439, 1440])
            stated.append(Shift(str(name), begin, begin + lasts, chance.randint(1, 3)))
        there = [
            [s for s in stated if any(s.begin <= m + turn < s.end for turn in (0, 1440))]
            for m in range(1440)
        ]
        found = day(stated)
        assert (found[0].begin, found[-1].end) == (0, 1440)
        for one, other in itertools.pairwise(found):
            assert one.end == other.begin
        for stretch in found:
            for minute in (stretch.begin, stretch.end - 1):
                assert stretch.crews == tuple(s.crew for s in there[minute])
                assert stretch.heats == sum(s.heats for s in there[minute])
        run = most = 0
        for crew in there + there:
            run = run + 1 if crew else 0
            most = max(most, run)
        assert longest(stated) == (None if all(there) else most)
        empty = sum(1 for crew in there if not crew)
        told = 0
        for words in unwatched(stated):
            first, last = (
                int(t[:2]) * 60 + int(t[3:]) for t in words.removeprefix("from ").split(" to ")
            )
            told += (last - first) % 1440 or 1440
            assert not there[first % 1440] and not there[last - 1]
            # A gap begins where somebody leaves, so that it is told whole.
            assert empty == 1440 or (there[first - 1] and there[last % 1440])
        assert told == empty


def test_times_in_words() -> None:
    assert unwatched([Shift("a", 360, 1080, 1)]) == ["from 18:00 to 06:00"]
    assert unwatched([Shift("a", 1080, 1800, 1)]) == ["from 06:00 to 18:00"]
    assert unwatched([Shift("a", 0, 600, 1), Shift("b", 660, 1439, 1)]) == [
        "from 10:00 to 11:00", "from 23:59 to 24:00"
    ]  # fmt: skip
    assert unwatched([]) == ["from 00:00 to 24:00"]
    assert unwatched([Shift("a", 0, 1440, 1)]) == []
    assert [clock(m) for m in (0, 59, 60, 1439, 1440, 1500)] == [
        "00:00", "00:59", "01:00", "23:59", "24:00", "01:00"
    ]  # fmt: skip
    assert [lasting(m) for m in (0, 59, 60, 605, 1440)] == [
        "0:00 h", "0:59 h", "1:00 h", "10:05 h", "24:00 h"
    ]  # fmt: skip
