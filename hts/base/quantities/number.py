"""Numbers as a specification writes them, read and shown without binary floating point.

Accepted: `25.4`, `705`, `-10`, `3/8`, `1 1/2`. One spelling for one number: no decimal comma, no
thousands separator, no exponent, no bare point, no leading plus.
"""

from __future__ import annotations

from fractions import Fraction

VULGAR = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
MINUS_SIGN = "\N{MINUS SIGN}"
_FRACTION_DECIMALS = 2
_EXACT_DECIMALS = 4


class NumberError(ValueError):
    """The text is not a number of the language.

    `problem` is "decimal comma" or "bad number", `reason` says what is wrong with it, and
    `suggestion` is the number to write instead, None when the text leaves more than one choice.
    """

    def __init__(self, problem: str, reason: str, suggestion: str | None = None) -> None:
        super().__init__(reason)
        self.problem = problem
        self.reason = reason
        self.suggestion = suggestion


LONGEST = 40
"""Characters of a number; more digits than any measurement has are a slip."""


def _is_digits(text: str) -> bool:
    return text.isdigit() and text.isascii()


def read_number(text: str) -> Fraction:
    """The exact value of a number without blanks around it. Raises NumberError."""
    if len(text) > LONGEST:
        raise NumberError("bad number", f"a number has at most {LONGEST} characters")
    magnitude = text[1:] if text.startswith("-") else text
    if _is_digits(magnitude):
        value = Fraction(int(magnitude))
    else:
        whole, point, decimals = magnitude.partition(".")
        if point and _is_digits(whole) and _is_digits(decimals):
            value = Fraction(int(whole + decimals), 10 ** len(decimals))
        else:
            value = _read_fraction(magnitude, text)
    return -value if text.startswith("-") else value


def _read_fraction(magnitude: str, text: str) -> Fraction:
    *before, last = magnitude.split() or [""]
    numerator, bar, denominator = last.partition("/")
    if (
        not bar
        or magnitude[0].isspace()
        or len(before) > 1
        or not all(map(_is_digits, (*before, numerator, denominator)))
    ):
        raise refusal(text)
    if int(denominator) == 0:
        raise NumberError("bad number", "a fraction cannot have zero below the bar")
    part = Fraction(int(numerator), int(denominator))
    if not before:
        return part
    if part >= 1:
        raise NumberError("bad number", "the fraction after a whole number must be less than one")
    return int(before[0]) + part


def refusal(text: str) -> NumberError:
    """Why `text`, which is no number, is none."""
    if text.startswith((MINUS_SIGN, "+")):
        sign = "-" if text.startswith(MINUS_SIGN) else ""
        plain = sign + text[1:]
        suggestion = plain if is_number(plain) else None
        return NumberError("bad number", "write the sign as - or not at all", suggestion)
    whole, comma, rest = text.partition(",")
    if comma and _is_digits(whole.removeprefix("-")) and _is_digits(rest):
        if len(rest) == 3:  # 1,300: thirteen hundred or one and three tenths?
            reason = "a comma may mean thousands or decimals; write the number without it"
            return NumberError("bad number", reason)
        return NumberError("decimal comma", "the decimal mark is a point", f"{whole}.{rest}")
    for sign in VULGAR.keys() & set(text):
        plain = " ".join(text.replace(sign, f" {VULGAR[sign]}").split()).replace("- ", "-")
        return NumberError("bad number", "write a fraction as 3/8 or 1 1/2", plain)
    if any(mark in text for mark in ",_'’"):
        return NumberError("bad number", "thousands are not set apart", None)
    joined = "".join(text.split())
    if joined != text and _is_digits(joined.removeprefix("-")):
        return NumberError("bad number", "a number has no blank between its digits", None)
    if "e" in text.lower():
        return NumberError("bad number", "a number has no exponent")
    if text.startswith(".") and _is_digits(text[1:]):
        return NumberError("bad number", "a digit stands before the point", f"0{text}")
    if text.endswith(".") and _is_digits(text[:-1]):
        return NumberError("bad number", "a digit stands after the point", text[:-1])
    return NumberError("bad number", "a number looks like 25.4, 3/8 or 1 1/2")


def is_number(text: str) -> bool:
    """Whether the text is a number of the language and nothing else."""
    try:
        read_number(text)
    except NumberError:
        return False
    return True


def decimals_written(text: str) -> int:
    """Decimal places a written number claims; a fraction of an inch counts as two."""
    return _FRACTION_DECIMALS if "/" in text else len(text.partition(".")[2])


def round_to(value: Fraction, places: int, toward: str = "nearest") -> Fraction:
    """`value` with `places` decimals, "up" (never less), "down" (never more) or "nearest".

    A half is rounded away from zero, as on a calculator. ValueError for another `toward`.
    """
    scaled = value * 10**places
    if toward == "up":
        whole = -(-scaled.numerator // scaled.denominator)
    elif toward == "down":
        whole = scaled.numerator // scaled.denominator
    elif toward == "nearest":
        size = abs(scaled) + Fraction(1, 2)
        whole = size.numerator // size.denominator * (-1 if scaled < 0 else 1)
    else:
        raise ValueError(f"toward is nearest, up or down, not {toward!r}")
    return Fraction(whole, 10**places)


def decimal_text(value: Fraction, places: int, toward: str = "nearest") -> str:
    """`value` written with exactly `places` decimals (none: no point)."""
    rounded = round_to(value, places, toward)
    digits = str(abs(rounded.numerator) * 10**places // rounded.denominator).rjust(places + 1, "0")
    sign = "-" if rounded < 0 else ""
    return f"{sign}{digits[:-places]}.{digits[-places:]}" if places else f"{sign}{digits}"


def short_text(value: Fraction, places: int, toward: str = "nearest") -> str:
    """`value` written with at most `places` decimals, without zeros at the end."""
    text = decimal_text(value, places, toward)
    return text.rstrip("0").rstrip(".") if "." in text else text


def places_for(value: Fraction, significant: int) -> int:
    """Decimals needed to show `value` with `significant` figures; 0 when it is zero."""
    places = 0
    while value and abs(value) * 10**places < 10 ** (significant - 1):
        places += 1
    return places


def exact_places(value: Fraction) -> int | None:
    """Decimals that write `value` exactly, None when that takes more than four."""
    for places in range(_EXACT_DECIMALS + 1):
        if 10**places % value.denominator == 0:
            return places
    return None
