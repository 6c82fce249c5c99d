"""Spoils a file of any kind: by its tokens, its tree, its bytes, its letters or its numbers.

Everything is drawn from the `random.Random` handed in, so a number says which damage it was.
"""

from __future__ import annotations

import re
import unicodedata
from random import Random

from tests.fuzz.texts import ODD, VALUES, VOCABULARY, damaged

#: Numbers at and beyond the ends of what anything counts in.
EXTREMES = (
    "0", "-0", "-1", "1", "00012", "0.0000000000000000001", "1e308", "1e-400", "1e999999999",
    "nan", "inf", "-Infinity", "9" * 30, "9" * 400, "2147483648", "18446744073709551616", "1/3",
    "1/0", "0/0", "1,5", "1.2.3", "+5", "--5", "0x10", "1_000", "١٢", "½", "1 1/2", "1.", ".5",
    "-273.16", "31 Feb", "9999-12-31", "0000-00-00", "24:00", "-1:00", "true", "null", "",
)  # fmt: skip
_NUMBER = re.compile(r"\d+(?:\.\d+)?(?:e[+-]?\d+)?", re.I)
_TOKEN = re.compile(r"\s+|[\w.]+|.", re.S)
_FORMS = ("NFC", "NFD", "NFKC", "NFKD")
_CODINGS = ("utf-16", "utf-16-le", "utf-32", "utf-8-sig", "latin-1", "cp1252", "cp437")


def spoiled(random: Random, content: bytes, others: tuple[bytes, ...] = ()) -> bytes:
    """The content after one to three kinds of damage; `others` lend parts of theirs."""
    for _ in range(random.choice((1, 1, 1, 2, 3))):
        content = random.choice(_KINDS)(random, content, others)
    return content


def other_values(random: Random, content: bytes) -> bytes:
    """The content with one to three of its numbers another plausible one: most stay valid."""
    text = _text(content)
    for _ in range(random.choice((1, 1, 2, 3))):
        found = list(_NUMBER.finditer(text))
        if found:
            one = random.choice(found)
            factor = random.choice((0, 0.1, 0.5, 0.9, 0.99, 1.01, 1.1, 2, 10, 100, 1000))
            text = text[: one.start()] + f"{float(one[0]) * factor:.6g}" + text[one.end() :]
    return text.encode("utf-8", "surrogatepass")


def _tokens(random: Random, content: bytes, others: tuple[bytes, ...]) -> bytes:
    parts = _TOKEN.findall(_text(content))
    if not parts:
        return content
    lent = _TOKEN.findall(_text(random.choice(others))) if others else parts
    for _ in range(random.choice((1, 1, 2, 5))):
        at, to = random.randrange(len(parts)), random.randrange(len(parts))
        act = random.randrange(5)
        if act == 0:
            parts[at] = ""
        elif act == 1:
            parts[at] = random.choice(lent or parts)
        elif act == 2:
            parts[at] = random.choice((*VALUES, *VOCABULARY))
        elif act == 3:
            parts[at], parts[to] = parts[to], parts[at]
        else:
            parts[at] *= random.choice((2, 2, 3, 200))
    return "".join(parts).encode("utf-8", "surrogatepass")


def _tree(random: Random, content: bytes, others: tuple[bytes, ...]) -> bytes:
    """Takes away, doubles, moves, nests or borrows a block: a line, and what is further in."""
    lines = _text(content).split("\n")
    start, end = _block(random, lines)
    block = lines[start:end]
    act = random.randrange(6)
    if act == 0:
        lines[start:end] = []
    elif act == 1:
        lines[end:end] = block * random.choice((1, 1, 2, 30))
    elif act == 2:
        del lines[start:end]
        at = random.randint(0, len(lines))
        lines[at:at] = block
    elif act == 3 and len(block) > 1:
        at = start + random.randrange(1, len(block))
        lines[at:at] = block * random.choice((1, 3))
    elif others:
        lent = _text(random.choice(others)).split("\n")
        one, other = _block(random, lent)
        lines[start : end if act == 4 else start] = lent[one:other]
    else:
        lines[start:end] = block[::-1]
    return "\n".join(lines).encode("utf-8", "surrogatepass")


def _block(random: Random, lines: list[str]) -> tuple[int, int]:
    start = random.randrange(len(lines))
    depth = len(lines[start]) - len(lines[start].lstrip())
    end = start + 1
    while end < len(lines) and len(lines[end]) - len(lines[end].lstrip()) > depth:
        end += 1
    if end < len(lines) and lines[end].strip() == "}" and end > start + 1:
        end += 1
    return start, end


def _bytes(random: Random, content: bytes, others: tuple[bytes, ...]) -> bytes:
    at = random.randint(0, len(content))
    act = random.randrange(6)
    some = random.choice((1, 1, 4, 64))
    if act == 0:
        return content[:at] + content[at + some :]
    if act == 1:
        return content[:at]
    if act == 2:
        return content[:at] + random.randbytes(some) + content[at:]
    if act == 3:
        flipped = bytes(b ^ (1 << random.randrange(8)) for b in content[at : at + some])
        return content[:at] + flipped + content[at + some :]
    if act == 4:
        return content[:at] + random.choice((b"\0", b"\xff", b"\x1b[2J", b"\r", b"\x1a")) * some
    return content[:at] + content[at : at + some] * random.choice((2, 2, 1000)) + content[at:]


def _letters(random: Random, content: bytes, others: tuple[bytes, ...]) -> bytes:
    text = _text(content)
    act = random.randrange(4)
    if act == 0:
        return unicodedata.normalize(random.choice(_FORMS), text).encode("utf-8", "surrogatepass")
    if act == 1:
        return text.encode(random.choice(_CODINGS), "replace")
    if act == 2:
        return text.swapcase().encode("utf-8", "surrogatepass")
    at = random.randint(0, len(text))
    odd = random.choice((*ODD, chr(random.randrange(0x110000))))
    return (text[:at] + odd + text[at:]).encode("utf-8", "surrogatepass")


def _numbers(random: Random, content: bytes, others: tuple[bytes, ...]) -> bytes:
    text = _text(content)
    found = list(_NUMBER.finditer(text))
    if not found or random.random() < 0.3:
        return other_values(random, content)
    one = random.choice(found)
    made = random.choice(EXTREMES)
    return (text[: one.start()] + made + text[one.end() :]).encode("utf-8", "surrogatepass")


def _accidents(random: Random, content: bytes, others: tuple[bytes, ...]) -> bytes:
    return damaged(random, _text(content)).encode("utf-8", "surrogatepass")


def _text(content: bytes) -> str:
    return content.decode("utf-8", "replace")


_KINDS = (_tokens, _tree, _bytes, _letters, _numbers, _accidents)
