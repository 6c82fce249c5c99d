"""When crews are there in the time of a plan, beside every minute counted one by one."""

from __future__ import annotations

import random
from itertools import groupby, pairwise

from hts.language.model.shifts import Shift
from hts.plan.crews import in_words, most_ticks, room, runs, stints, there

MINUTE, DAY = 60, 24 * 60


def drawn(seed: int) -> list[Shift]:
    chance = random.Random(seed)
    made = []
    for name in range(chance.randrange(4)):
        begin = chance.choice([0, 360, 1080, 15 * chance.randrange(96)])
        lasts = chance.choice([15, 480, 720, 1425, 1440])
        made.append(Shift(str(name), begin, begin + lasts, chance.randint(1, 3)))
    return made


def on(shifts: list[Shift], minute: int) -> list[Shift]:
    """Who is there in a minute from some midnight on."""
    at = minute % DAY
    return [s for s in shifts if s.begin <= at < s.end or s.begin <= at + DAY < s.end]


def test_stints_and_room_are_those_of_each_minute() -> None:
    for seed in range(40):
        shifts, since = drawn(seed), 15 * (seed * 7 % 96)
        hours = 5 + seed % 50
        minutes = [on(shifts, since + minute) for minute in range(hours * 60)]
        found = list(stints(shifts, since * MINUTE, hours * 3600))
        assert found[0].begin == 0 and found[-1].end == hours * 3600
        for one, other in pairwise(found):
            assert one.end == other.begin
        for stint in found:
            for minute in {stint.begin // MINUTE, stint.end // MINUTE - 1}:
                assert stint.crews == tuple(s.crew for s in minutes[minute])
                assert stint.heats == sum(s.heats for s in minutes[minute])
        for minute in range(0, hours * 60, 7):
            names = tuple(s.crew for s in minutes[minute])
            assert there(shifts, since * MINUTE, minute * MINUTE) == names
            assert there(shifts, since * MINUTE, minute * MINUTE + 59) == names
        # A tick of 20 min holds what is looked after all through it.
        least = [min(sum(s.heats for s in crew) for crew in minutes[at : at + 20])
                 for at in range(0, hours * 60, 20)]  # fmt: skip
        assert room(shifts, since * MINUTE, hours * 3, 20 * MINUTE) == least


def test_the_longest_time_without_a_break() -> None:
    day, night = Shift("day", 360, 1080, 2), Shift("night", 1080, 1800, 1)
    # 12 h are 48 ticks of 15 min; a shift that begins within a tick does not count for it.
    assert most_ticks([day], 0, 900) == most_ticks([day], 5 * 3600, 900) == 48
    assert most_ticks([day._replace(begin=365)], 0, 900) == 47
    assert most_ticks([day, night], 0, 900) is None
    assert most_ticks([day, night._replace(end=1795)], 0, 900) == 95
    assert most_ticks([], 0, 900) == 0


def test_runs_of_equal_values() -> None:
    for values in ([], [1], [1, 1, 2, 2, 2, 1], [0, 1, 0]):
        expected, at = [], 0
        for value, those in groupby(values):
            count = len(list(those))
            expected.append((at, at + count, value))
            at += count
        assert list(runs(values)) == expected


def test_crews_in_words() -> None:
    assert in_words([Shift("day", 360, 1080, 1), Shift("late", 1080, 1320, 2)]) == [
        "crew day from 06:00 to 18:00 looks after 1 heat at once",
        "crew late from 18:00 to 22:00 looks after 2 heats at once",
        "nobody is there from 22:00 to 06:00: nothing is set up or heated then",
    ]
    assert in_words([]) == []
    assert len(in_words([Shift("all", 0, 1440, 3)])) == 1
