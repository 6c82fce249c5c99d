"""Bytes of a file to bytes in UTF-8 with line ends that Polars knows."""

from __future__ import annotations

import codecs

from hts.record.errors import RecordError

_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)


def decode(data: bytes, name: str) -> tuple[bytes, str]:
    """UTF-8 with lines ending in "\\n" or "\\r\\n", and a note on the encoding, "" for UTF-8.

    Raises RecordError for what is no text.
    """
    data, note = _utf8(data, name)
    if b"\r" in data and b"\r\n" not in data:
        data = data.replace(b"\r", b"\n")
    if b"\0" in data:
        data, without = _without_zeros(data, name)
        note = f"{note} {without}".strip()
    return data, note


def _without_zeros(data: bytes, name: str) -> tuple[bytes, str]:
    """The lines without those that hold zero bytes, which recorders leave where power failed while
    they wrote. A line left out stays as an empty one, so that the others keep their numbers."""
    lines = data.split(b"\n")
    bad = [at for at, line in enumerate(lines) if b"\0" in line]
    # What is no text has them everywhere, or has no lines.
    if len(bad) > max(3, len(lines) // 20) or lines[0].strip(b"\0") != lines[0]:
        raise RecordError(name, "this is not a text file", "export the record as delimited text")
    for at in bad:
        lines[at] = b""
    which = ", ".join(str(at + 1) for at in bad[:5]) + (" …" if len(bad) > 5 else "")
    said = "Lines" if len(bad) > 1 else "Line"
    return b"\n".join(lines), f"{said} {which} of {name} with zero bytes left out."


def _utf8(data: bytes, name: str) -> tuple[bytes, str]:
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            try:
                return _whole(data[len(mark) :], encoding).decode(encoding).encode(), ""
            except UnicodeDecodeError as error:
                raise RecordError(
                    name,
                    f"it begins as {encoding} and is none at byte {error.start}",
                    "export it again",
                ) from None
    # Text in UTF-16 without its mark: every other byte of Latin letters and digits is zero.
    for encoding, first in (("utf-16-le", 1), ("utf-16-be", 0)):
        half = data[first:400:2]
        if len(half) > 1 and half.count(0) > 0.9 * len(half):
            text = _whole(data, encoding).decode(encoding, "replace")
            return text.encode(), f"{name} is read as {encoding}."
    try:
        if not data.isascii():
            data.decode()
        return data, ""
    except UnicodeDecodeError:
        note = f"{name} is not UTF-8 and is read as Latin-1."
        return data.decode("latin-1").encode(), note


def _whole(data: bytes, encoding: str) -> bytes:
    """With the second byte of the last letter where a log in UTF-16 was cut within it."""
    if len(data) % 2 == 0 or encoding == "utf-8":
        return data
    return data + b"\0" if encoding == "utf-16-le" else data[:-1]
