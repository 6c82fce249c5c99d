"""Welding processes by the letters of the trade and the numbers of ISO 4063, and welding positions.

Letters as in AWS A3.0, numbers as in ISO 4063, positions as in AWS A3.0 and ISO 6947: from memory.
"""

from __future__ import annotations

import re
from functools import lru_cache

#: How well all names here are known.
BASIS = "memory"

#: The letters a process goes by first, and its other names. A number of two digits stands for all
#: that begin with it.
PROCESSES: dict[str, tuple[str, ...]] = {
    "SMAW": ("MMA", "MMAW", "111"),
    "GTAW": ("TIG", "14", "141", "142", "143", "145"),
    "GMAW": ("MIG", "MAG", "13", "131", "133", "135", "138"),
    "FCAW": ("114", "132", "136"),
    "SAW": ("12", "121", "122", "124", "125"),
    "PAW": ("15", "151", "152", "153"),
    "ESW": ("72", "721", "722"),
    "EGW": ("73",),
    "OFW": ("OAW", "31", "311"),
    "EBW": ("51", "511", "512"),
    "LBW": ("52", "521", "522"),
    "SW": ("78", "783", "784", "786"),
    "FRW": ("42", "421", "422"),
}

#: The numbers that letters alone tell, for welds of pipe and vessels. Basis: practice.
TOLD_BY_LETTERS = ("111", "141", "12", "121")

#: Every name of every process, the letters first.
NAMES: tuple[str, ...] = (
    *PROCESSES,
    *(name for names in PROCESSES.values() for name in names if not name.isdigit()),
    *sorted(name for names in PROCESSES.values() for name in names if name.isdigit()),
)
_LETTERS = {name: letters for letters, names in PROCESSES.items() for name in (letters, *names)}

#: Positions of AWS A3.0 for grooves and fillets, then those of ISO 6947.
POSITIONS = (
    "1G", "2G", "3G", "4G", "5G", "6G", "6GR", "1F", "2F", "2FR", "3F", "4F", "5F", "6F",
    "PA", "PB", "PC", "PD", "PE", "PF", "PG", "PH", "PJ", "PK", "H-L045", "J-L045",
)  # fmt: skip

#: What may be the name of a process in a text: capitals that are no part of a longer name, or a
#: number of ISO 4063.
_NAMED = re.compile(r"(?<![\w.-])(?:[A-Z]{2,5}|[0-9]{2,3})(?![\w.])")


def processes(text: str) -> tuple[str, ...]:
    """The processes a text names, in its order and in its own words, each once."""
    return tuple(dict.fromkeys(name for name in _NAMED.findall(text) if name in _LETTERS))


def letters(name: str) -> str | None:
    """What a process goes by first: SMAW for 111; None for no process."""
    return _LETTERS.get(name)


@lru_cache(maxsize=256)
def answers_to(name: str) -> tuple[str, ...]:
    """All names that a process named so answers to: 135 is GMAW, MAG and 13, and not 131."""
    first = _LETTERS[name]
    others = [other for other in PROCESSES[first] if not other.isdigit()]
    if not name.isdigit():
        # MIG and TIG say the whole of a process; which number it has is then left open.
        return (first, *others, *(n for n in PROCESSES[first] if n.isdigit()))
    return (first, *others, *dict.fromkeys((name[:2], name)))
