"""Right sentences in the words of every day pass without a word.

They are denied, read clause by clause, in another unit, of tools and clothing, or of a neighbour.
Common practice, no source; plant and lines are invented.
"""

from __future__ import annotations

import pytest

from tests.rows import each_row
from tests.specs.found import SPECS, changed, checked

#: What is replaced in which specification, and what may be written there.
SENTENCES: dict[tuple[str, str], tuple[str, ...]] = {
    ("p22-header", '"Spring hanger released" about supports'): (
        '"Spring hanger no longer pinned" about supports',
        '"Nothing pinned, locked or clamped at any hanger" about supports',
        '"Hanger not locked any more" about supports',
        '"Locking pins of the spring hanger taken out" about supports',
        '"Spring hanger neither pinned nor blocked" about supports',
        '"Spring hanger, pinned for the heat, is free" about supports',
        '"Rod hanger tight, spring hanger free" about supports',
        '"Spring hanger freed; rod hanger still pinned to its lug" about supports',
        '"Spring hanger that was pinned hangs free" about supports',
        '"Spring hanger released, rod hanger not free to swing" about supports',
    ),
    ("p91-pipe", '"Constant hanger free, clamp off" about supports'): (
        '"Nothing clamped or locked any more" about supports',
        '"Constant hanger without its lock, clamp off" about supports',
        '"Constant hanger unlocked" about supports',
    ),
    (
        "p22-header",
        'weld at most 241 HBW count 4 places "12:00, 3:00, 6:00, 9:00"',
    ): (
        'weld at most 241 HBW count 4 places "12:00 and 6:00 upstream, 12:00 and 6:00 downstream"',
        'weld at most 241 HBW count 4 places "upstream 12:00, 6:00; downstream 12:00, 6:00"',
        'weld at most 241 HBW count 4 places "toe A 12:00, toe A 6:00, toe B 12:00, toe B 6:00"',
        'weld at most 241 HBW count 4 places "12:00 cap, 12:00 beside the cap, 6:00, 9:00"',
        'weld at most 241 HBW count 4 places "12:00, 6:00 both sides"',
        'weld at most 241 HBW count 4 places "four from 9:00 to 3:00"',
        'weld at most 241 HBW count 1 places "12:00 or 3:00, whichever is free"',
    ),
    ("p91-pipe", '"Weld below 93 degC all round, read on T1, T2 and T7"'): (
        '"Weld not above 93 degC all round"',
        '"Weld nowhere above 93 degC"',
        '"No part of the weld above 93 degC"',
        '"Weld below 199 degF, read on T1"',
        '"Weld under 200 degF all round"',
        '"Weld below 93 degC; leads below 60 degC"',
        '"Lead tails below 60 degC, gloves good up to 250 degC"',
        '"Interpass never above 315 degC, weld now below 93 degC"',
    ),
    ("p22-header", '"Surfaces up to 730 degC"'): (
        '"Surfaces beside the insulation up to 120 degC, under it 730 degC"',
        '"Outer surfaces up to 80 degC"',
        '"Surfaces up to 1346 degF"',
        '"Surfaces of the cabinets up to 60 degC"',
        '"Above 60 degC the leads are spoiled"',
        '"The ammonia line beside it is live"',
        '"A neighbouring ammonia line stays in service"',
        '"No amine is in the line"',
        '"Ammonia masks at hand"',
    ),
    ("p22-header", 'check "Fire watch posted" about fire watch'): tuple(
        f'check "Fire watch posted" about fire watch\n  check "{text}" about {topic}'
        for text, topic in (
            ("Safety shoes, gloves and face shields worn", "other"),
            ("Rubber boots and dry gloves worn", "other"),
            ("Shoes with insulating soles worn", "other"),
            ("Clamp meter reads the current of each circuit", "heater continuity"),
            ("Earth clamp on the pipe", "other"),
            ("Hose clamps and cable clamps tight", "other"),
            ("Spring balance for the pull test at hand", "thermocouple attachment"),
            ("Power set stands on its trestle, out of the wet", "power and standby"),
            ("Gas bottles upright and chained", "other"),
            ("Lead ends taped", "other"),
            ("Anchor and shoes of the neighbouring line not touched", "other"),
            ("Neighbouring line's hanger left alone", "other"),
            ("Spare fuses and batteries at hand", "other"),
            ("Nobody leaves before the hold ends", "other"),
        )
    ),
    ("branch-unequal", '"Hoist carries the branch"'): (
        '"Hoist carries the branch, saddle carries the header"',
        '"Saddle carries the header and hoist the branch"',
        '"Hoist carries the branch and saddle the header"',
        '"Saddle carries the header; the hoist holds the branch"',
        '"Hoist never carries the header"',
    ),
}
_CHECK = 'check "Fire watch posted" about fire watch'
#: Topics: what a check of it may say, and what is plainly its opposite.
TOPICS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "ends closed": (
        (
            "Open ends closed against draught",
            "No end left open",
            "Ends closed, none open",
            "Ends closed, not gas-tight",
            "One vent left open",
            "Ends not closed before the purge is off are closed now",
        ),
        ("Both ends open against draught", "Ends not closed", "Covers off, ends left open"),
    ),
    "drained and vented": (
        (
            "Bore no longer filled with water",
            "Bore drained and filled with nitrogen",
            "Line drained, not full of condensate any more",
            "Drains open, bore dry",
            "Nothing in the bore, vents open",
        ),
        ("Bore full of water", "Bore filled with gas and vented", "Header not drained"),
    ),
    "gas test": (
        ("No gas found", "Purge closed", "Gas test with the purge open before it is closed"),
        ("Purge open and argon in the bore", "Gas found in the bore"),
    ),
    "nearby items protected": (
        ("Packing nowhere above its limit", "Seat not above its limit", "Valve below its limit"),
        ("Packing of the vent valve above its limit", "Valve not protected"),
    ),
    "spares connected": (("Spares connected, none disconnected",), ("All spares disconnected",)),
    "polarity": (("No polarity reversed", "Reversed leads put right"), ("Polarity reversed",)),
    "calibration in date": (
        ("No calibration expired", "Instruments in calibration until the last day"),
        ("Calibration of R1 expired",),
    ),
    "insulation complete": (
        ("Old insulation removed and new laid", "Insulation laid, none taken off"),
        ("Insulation taken off",),
    ),
    "fire watch": (
        ("Fire watch not to be stood down", "Fire watch stays until it is stood down"),
        ("Fire watch stood down", "No fire watch posted"),
    ),
    "tag matches channel": (
        ("Thermocouples warmed one by one, each shows on its channel",),
        ("Each thermocouple warmed by hand reads on the next channel",),
    ),
    "supports": (
        ("Spring hanger pinned, nothing hangs free",),
        ("Hoist taken off the branch", "Branch carries the hoist"),
    ),
    "junctions shielded": (
        ("No junction bare", "Bare junctions covered with putty", "Any bare junction shielded"),
        ("Junctions left bare",),
    ),
}
#: Titles that name another metal or another line than the job's own.
TITLES = {
    "p22-header": (
        "Tern Island (invented): closing weld after the shop's P11 welds",
        "Tern Island (invented): P22 header on the P91 main",
        "Tern Island (invented): header beside the lean amine line",
        "Tern Island (invented): tie-in near the P91 steam line, header weld",
        "Tern Island (invented): outlet header, unlike the P11 one opposite",
    ),
    "p91-pipe": (
        "Tern Island (invented): weld next to the P22 header",
        "Tern Island (invented): P91 weld, ammonia line crossing above it",
    ),
}
CASES = [
    pytest.param(job, old, new, id=f"{job}: {new}")
    for (job, old), news in SENTENCES.items()
    for new in news
]


@each_row(("job", "old", "new"), CASES)
def test_a_right_sentence_has_no_finding(job: str, old: str, new: str) -> None:
    path = SPECS / f"{job}.hts"
    found = checked(path, changed(path.read_text("utf-8"), [(old, new)]))
    assert [str(finding.message) for finding in found] == []


@each_row(("job", "title"), [(job, title) for job, titles in TITLES.items() for title in titles])
def test_a_right_title_has_no_finding(job: str, title: str) -> None:
    path = SPECS / f"{job}.hts"
    lines = path.read_text("utf-8").splitlines()
    row = next(row for row, line in enumerate(lines) if line.startswith("job "))
    lines[row] = f'job "{title}" {{'
    found = checked(path, "\n".join(lines) + "\n")
    assert [str(finding.message) for finding in found] == []


@each_row(
    ("topic", "text", "is_right"),
    [
        (topic, text, is_right)
        for topic, (right, opposite) in TOPICS.items()
        for is_right, texts in ((True, right), (False, opposite))
        for text in texts
    ],
)
def test_only_plain_opposites_of_a_topic_are_told(topic: str, text: str, is_right: bool) -> None:
    path = SPECS / "p22-header.hts"
    new = f'{_CHECK}\n  check "{text}" about {topic}'
    found = checked(path, changed(path.read_text("utf-8"), [(_CHECK, new)]))
    told = [finding.kind.name for finding in found]
    assert told == [] if is_right else "check-says-opposite" in told
