"""Times of a day."""

from __future__ import annotations

from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.types.base import Json, Type


class TimeOfDay(Type):
    """A time of the day, in 24 hours."""

    words = "a time of the day"
    example = "06:00"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "CLOCK"

    def read(self, cursor: Cursor) -> str:
        if cursor.kind != "CLOCK":
            raise self.wrong(cursor)
        text = cursor.text(cursor.items[cursor.at])
        hour, _, minute = text.partition(":")
        if int(hour) * 60 + int(minute) > 24 * 60 or int(minute) > 59:
            start, end = cursor.here()
            raise Misread(
                mistakes.WRONG_VALUE,
                f"{text!r} is not a time of the day from 00:00 to 24:00",
                start,
                end,
            )
        cursor.at += 1
        return f"{int(hour):02}:{minute}"

    def schema(self) -> Json:
        return {"type": "string", "pattern": "^(([01][0-9]|2[0-3]):[0-5][0-9]|24:00)$"}
