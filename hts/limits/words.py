"""The words that facts can be, where a list of them is closed."""

from __future__ import annotations

#: What the line or vessel contains.
SERVICES = (
    "wet hydrogen sulphide",
    "amine",
    "caustic",
    "carbonate",
    "ammonia",
    "hydrogen",
    "lethal",
    "steam",
    "feed water",
    "hydrocarbon",
    "water",
    "air",
)
#: Kinds of part.
PARTS = (
    "pipe",
    "elbow",
    "bend",
    "tee",
    "reducer",
    "cap",
    "flange",
    "valve",
    "nozzle",
    "branch fitting",
    "socket fitting",
    "vessel shell",
    "vessel head",
    "tube sheet",
    "casting",
    "forging",
    "plate",
    "structural attachment",
)
#: Delivery conditions of a base metal.
CONDITIONS = (
    "as rolled",
    "annealed",
    "normalized",
    "normalized and tempered",
    "quenched and tempered",
    "thermo-mechanically rolled",
)
#: P-numbers of ASME BPVC IX QW/QB-420, from memory.
P_NUMBERS = (
    "1", "3", "4", "5A", "5B", "5C", "6", "7", "8", "9A", "9B", "9C", "10A", "10B", "10C",
    "10E", "10F", "10G", "10H", "10I", "10J", "10K", "11A", "11B", "11C", "15E", "15F", "21",
    "22", "23", "24", "25", "26", "31", "32", "33", "34", "35", "41", "42", "43", "44", "45",
    "46", "47", "49", "51", "52", "53", "61", "62",
)  # fmt: skip
#: Group numbers within a P-number; the largest is that of P-11B, from memory.
GROUP_NUMBERS = tuple(str(number) for number in range(1, 11))
#: Groups of US Navy S9074-AR-GIB-010/278 that the book of it has rows for, with S-6 to S-11 from
#: memory.
S_GROUPS = ("S-1", "S-2", "S-3", "S-3A", "S-4", "S-5", "S-6", "S-7", "S-8", "S-9", "S-10", "S-11")
#: Groups of ISO/TR 15608, from memory: whole groups and their subgroups of steels.
EN_GROUPS = (
    "1", "1.1", "1.2", "1.3", "1.4", "2", "2.1", "2.2", "3", "3.1", "3.2", "3.3", "4", "4.1",
    "4.2", "5", "5.1", "5.2", "5.3", "5.4", "6", "6.1", "6.2", "6.3", "6.4", "7", "7.1", "7.2",
    "7.3", "8", "8.1", "8.2", "8.3", "9", "9.1", "9.2", "9.3", "10", "10.1", "10.2", "10.3",
    "11", "11.1", "11.2", "11.3",
)  # fmt: skip


def hyphened(words: tuple[str, ...]) -> tuple[str, ...]:
    """The words as a condition spells them: `wet-hydrogen-sulphide`."""
    return tuple(word.replace(" ", "-") for word in words)
