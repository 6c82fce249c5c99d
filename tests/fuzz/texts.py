"""Makes texts to try: valid ones from the grammar, and damaged ones from good ones.

Everything is drawn from the `random.Random` handed in, so a number says which text it was, and
hypothesis (whose `randoms()` are such objects) can shrink one that fails.
"""

from __future__ import annotations

from random import Random

from hts.language.vocabulary.declare import Entry, Field
from hts.language.vocabulary.spec import File

QUANTITIES = (
    "25.4 mm",
    "1 1/2 in",
    "3/8 in",
    "705 degC",
    "1300 °F",
    "200 degC/h",
    "2 h 30 min",
    "12 kW",
    "0.11 %",
    "-10 degC",
    "5 K",
    "248 HV10",
    "1 Mohm",
    "4 W/cm2",
)
NUMBERS = ("0", "12", "-3", "1/2", "1 1/2", "2.50", "999999999999")
VALUES = (
    *QUANTITIES,
    *NUMBERS,
    "6 t",
    "1 1/2 t",
    "6:15",
    "12:00",
    "2026-11-20",
    "by rule",
    '"text"',
    '"a # in text"',
    r'"quoted \" and \\"',
    '""',
    "W12",
    "top",
    "5A",
    "80S",
    "asme-b31.3",
    "<=",
    ">=",
    "!=",
    "=",
    "<",
    ">",
    "*",
    "/",
    "+",
    "-",
)
BOUNDS = (*QUANTITIES, *NUMBERS, "6 t", "6:15", "2026-11-20")
COMMENTS = ("# note", "#", "# { not a block", '# "half a text', "# Prüfung ±")
#: Characters that have broken parsers: line ends of other systems, marks without width,
#: characters outside the basic plane, digits of other scripts.
ODD = (
    "\ufeff",
    "\u200b",
    "\u202e",
    "\0",
    "\x0b",
    "\x0c",
    "\x1c",
    "\x85",
    "\u2028",
    "\r",
    "\r\n",
    "\t",
    "\xa0",
    "é",
    "Å",
    "½",
    "²",
    "٣",
    "߁",
    "一",
    "\U0001d7d9",
    "😀",
    "°",
    "±",
    "…",
    "−",
    "“",
    "'",
    "`",
    "\\",
    '"',
    "{",
    "}",
    "(",
    ")",
    ",",
    ".",
    "..",
    "+/-",
    "#",
    "$",
    "@",
    "~",
    "%",
    "0" * 400,
    "9" * 5000,
    "1/0",
    "1e9",
    "25,4",
    "0/0 mm",
    "-",
    "--",
    "°C",
    "degC",
)


def _words(cls: type[Entry], seen: set[type[Entry]]) -> list[str]:
    """Every word or phrase the language has below an entry."""
    if cls in seen:
        return []
    seen.add(cls)
    found: list[str] = []
    for field in cls.fields.values():
        found += _words_of(field, seen)
    return found


def _words_of(field: Field, seen: set[type[Entry]]) -> list[str]:
    found = [" ".join(field.words)] if field.words else []
    if field.type is not None:
        found += getattr(field.type, "choices", ())
    for cls in (*field.family, *((field.entry,) if field.entry else ())):
        found += [" ".join(cls.words), *_words(cls, seen)]
    return found


VOCABULARY = tuple(sorted({words for words in _words(File, set()) if words}))


def grammar_text(random: Random, entries: int = 6) -> str:
    """A text the grammar takes, with comments, blank lines and continued lines anywhere."""
    lines: list[str] = []
    _entries(random, lines, random.randint(0, entries), 0)
    end = random.choice(("\n", "\n", "\n", "\r\n"))
    text = random.choice(("", "", "\n", "# first\n")) + "\n".join(lines)
    return (text + random.choice(("", "\n", "\n\n# last"))).replace("\n", end)


def _entries(random: Random, lines: list[str], count: int, depth: int) -> None:
    for _ in range(count):
        if random.random() < 0.15:
            lines.append(random.choice(("", *COMMENTS)))
        indent = random.choice(("  " * depth, "  " * depth, "\t" * depth, " "))
        line = indent + phrase(random)
        if depth < 5 and random.random() < 0.3:
            lines.append(line + random.choice((" {", "{", " { # opens", " {")))
            _entries(random, lines, random.randint(0, 3), depth + 1)
            lines.append(indent + "}" + _comment(random))
        elif depth < 5 and random.random() < 0.05:
            lines.append(f"{line} {{ {phrase(random)} }}")
        else:
            lines.append(line + _comment(random))


def _comment(random: Random) -> str:
    return "  " + random.choice(COMMENTS) if random.random() < 0.15 else ""


def phrase(random: Random) -> str:
    """Values of one entry. A comma may end a line; the first word is no sign."""
    parts = [random.choice(VOCABULARY) if random.random() < 0.7 else random.choice(VALUES[:30])]
    for _ in range(random.randint(0, 5)):
        part = random.random()
        if part < 0.5:
            parts.append(random.choice(VALUES))
        elif part < 0.65:
            parts.append(random.choice(VOCABULARY))
        elif part < 0.75:
            low, high = random.choice(BOUNDS), random.choice(BOUNDS)
            # After a word, as "12" before "1/2 .. 3" would become the one number 12 1/2.
            parts.append(f"to {low} {random.choice(('..', '…', '+/-', '±'))} {high}")
        elif part < 0.8:
            parts.append(f"+/- {random.choice(BOUNDS)}")
        elif part < 0.9:
            parts.append(random.choice((", ", ",\n      ", ", # why\n      ")) + "C 0.11 %")
        else:
            parts.append(f"( {random.choice(VALUES[:30])}\n  * {random.choice(VALUES[:30])} )")
    return " ".join(parts)


def damaged(random: Random, text: str) -> str:
    """The text after one to four of the accidents that happen to texts."""
    for _ in range(random.choice((1, 1, 1, 2, 4))):
        text = random.choice(_ACCIDENTS)(random, text)
    return text


def _cut_out(random: Random, text: str) -> str:
    at = random.randint(0, len(text))
    return text[:at] + text[at + random.choice((1, 1, 2, 10, 200)) :]


def _put_in(random: Random, text: str) -> str:
    at = random.randint(0, len(text))
    return text[:at] + random.choice(ODD) * random.choice((1, 1, 1, 2)) + text[at:]


def _put_value_in(random: Random, text: str) -> str:
    at = random.randint(0, len(text))
    piece = random.choice((random.choice(VALUES), random.choice(VOCABULARY), phrase(random)))
    return f"{text[:at]} {piece} {text[at:]}"


def _drop_line(random: Random, text: str) -> str:
    lines = text.split("\n")
    del lines[random.randrange(len(lines))]
    return "\n".join(lines)


def _copy_line(random: Random, text: str) -> str:
    lines = text.split("\n")
    lines.insert(random.randint(0, len(lines)), random.choice(lines))
    return "\n".join(lines)


def _swap_lines(random: Random, text: str) -> str:
    lines = text.split("\n")
    one, other = random.randrange(len(lines)), random.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]
    return "\n".join(lines)


def _join_lines(random: Random, text: str) -> str:
    lines = text.split("\n")
    at = random.randrange(len(lines))
    return "\n".join([*lines[:at], " ".join(lines[at : at + 2]), *lines[at + 2 :]])


def _swap_words(random: Random, text: str) -> str:
    words = text.split(" ")
    one, other = random.randrange(len(words)), random.randrange(len(words))
    words[one], words[other] = words[other], words[one]
    return " ".join(words)


def _replace_word(random: Random, text: str) -> str:
    words = text.split(" ")
    words[random.randrange(len(words))] = random.choice((*VALUES, *VOCABULARY, *ODD))
    return " ".join(words)


def _brace(random: Random, text: str) -> str:
    """Takes away or doubles one brace, bracket or quote."""
    places = [at for at, character in enumerate(text) if character in '{}()"']
    if not places:
        return text
    at = random.choice(places)
    return text[:at] + random.choice(("", text[at] * 2, "\n" + text[at])) + text[at + 1 :]


def _end_early(random: Random, text: str) -> str:
    return text[: random.randint(0, len(text))]


def _line_ends(random: Random, text: str) -> str:
    return text.replace("\n", random.choice(("\r\n", "\r", "\n\n")))


def _mark(random: Random, text: str) -> str:
    return "\ufeff" + text


_ACCIDENTS = (
    _cut_out,
    _cut_out,
    _put_in,
    _put_in,
    _put_value_in,
    _drop_line,
    _copy_line,
    _swap_lines,
    _join_lines,
    _swap_words,
    _replace_word,
    _replace_word,
    _brace,
    _brace,
    _end_early,
    _line_ends,
    _mark,
)
