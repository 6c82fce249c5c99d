"""The table of kinds of change: all a text can say is in it, and every kind has its mirror."""

from hts.job.comparison.change_kinds import ROWS, WAIVED
from hts.job.comparison.lookup import named, patterns, row_of
from hts.job.comparison.registry import (
    ADDED,
    CHANGED,
    LOOSENED,
    MAXIMUM,
    MINIMUM,
    MIRROR,
    MOVED,
    PLAIN,
    RANGE,
    REMOVED,
    RENAMED,
    TIGHTENED,
)
from hts.language.vocabulary.paths import walk
from hts.language.vocabulary.spec import File

#: What can happen to a value whose row has this sense.
_ALWAYS = {ADDED, REMOVED, CHANGED, RENAMED}
POSSIBLE = {
    PLAIN: _ALWAYS | {MOVED},
    MAXIMUM: _ALWAYS | {TIGHTENED, LOOSENED},
    MINIMUM: _ALWAYS | {TIGHTENED, LOOSENED},
    RANGE: _ALWAYS | {TIGHTENED, LOOSENED, MOVED},
}
#: Told with the joint, side by side, or by name only.
RESOLVED = (
    "use", "book", "weld list", "joint.names", "joint.like", "joint.in", "joint.between",
    "joint.pipe", "joint.wall",
    "joint.without", "joint.heating.without zone", "joint.thermocouples.without",
)  # fmt: skip


def paths() -> list[str]:
    return [path for path, _, _ in walk(File) if not path.startswith(RESOLVED)]


def test_every_entry_of_the_language_has_a_kind() -> None:
    assert len(paths()) > 600
    for path in paths():
        assert row_of(path), path


def test_every_action_has_its_mirror() -> None:
    for row in ROWS:
        actions = set(row.actions)
        assert {MIRROR[action] for action in actions} == actions, row
        if row.paths:
            assert actions == POSSIBLE[row.sense], row


def test_a_kind_says_why() -> None:
    for row in ROWS:
        assert row.why and row.basis in ("practice", "published", "memory", "derived"), row
        # Who is asked to review has to know what is missing; where the row does not say, the
        # change does (a fact that a limit or a qualification lacks).
        if "V" in row.letters and row.area not in ("requalification", "limit"):
            assert row.lacks, row
        assert row.source or row.basis == "practice", row


def test_kinds_have_names_and_paths_of_their_own() -> None:
    assert len({(row.area, row.kind) for row in ROWS}) == len(ROWS)
    patterns(ROWS)  # ValueError for a path claimed twice


def test_what_is_waived_is_a_kind() -> None:
    for waived in WAIVED:
        assert named(waived.area, waived.kind) and waived.reason


def test_mirror_is_its_own_mirror() -> None:
    assert all(MIRROR[MIRROR[action]] == action for action in MIRROR)


def test_the_longest_path_decides() -> None:
    # Common practice, no source: the width of a band is approved, the number of a circuit is not.
    assert row_of("joint.heating.soak band").kind == "band"
    assert row_of("joint.heating.zone.circuit").kind == "circuit"
    assert row_of("cycle.hold.for").kind == row_of("bake.hold.for").kind == "hold time"
    assert row_of("procedure.hold time.at least").kind == "lower limit"
    assert row_of("procedure.hold time.because").kind == "reason of a limit"
