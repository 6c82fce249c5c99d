"""Which column of a log belongs to which thermocouple."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple, Protocol

from hts.record.errors import RecordError
from hts.record.reading.sniff import Layout


class Channel(Protocol):
    """A channel of an instrument; `hts.job.compiler.tags.Channel` is one."""

    @property
    def instrument(self) -> str | None: ...
    @property
    def number(self) -> int | None: ...


class Wanted(Protocol):
    """A thermocouple to find a column for; `hts.job.compiler.tags.Tag` is one."""

    @property
    def tag(self) -> str: ...
    @property
    def recorder(self) -> Channel: ...
    @property
    def connected(self) -> bool: ...


class Claims(NamedTuple):
    """Tag -> number of its column, and sentences on how a column was found where not by name."""

    columns: dict[str, int]
    notes: tuple[str, ...]


_CHANNEL = re.compile(r"(?:ch(?:an(?:nel)?)?|input|in|kanal)?\s*[.#_-]?\s*0*(\d{1,4})", re.I)


def claims(
    layout: Layout, name: str, tags: Sequence[Wanted], mapped: dict[str, str], recorder: str
) -> Claims:
    """By the map first, then by the tag, then by recorder and channel.

    `mapped` is tag -> name of a column; `recorder` the instrument the log itself names, or "".
    Raises RecordError when two columns claim one tag, or the map names what is not there.
    """
    found: dict[str, int] = {}
    notes: list[str] = []
    heads = _heads(layout)
    by_fold = {tag.tag.casefold(): tag for tag in tags}
    for tag, column in mapped.items():
        if tag.casefold() not in by_fold:
            raise RecordError(
                name,
                f"the map of columns has {tag!r}, and the specification no such thermocouple",
                f"it has: {', '.join(wanted.tag for wanted in tags)}",
            )
        at = [number for number, texts in enumerate(heads) if _fold(column) in texts]
        if not at:
            raise RecordError(
                name,
                f"there is no column {column!r}, which the map gives to {tag}",
                f"the columns are: {', '.join(filter(None, layout.names))}",
            )
        found[by_fold[tag.casefold()].tag] = at[0]
    free = [wanted for wanted in tags if wanted.tag not in found]
    for find in (_by_tag, _by_tag_and_channel, _by_channel):
        for wanted in free:
            if wanted.tag in found:
                continue
            at = [
                number
                for number, texts in enumerate(heads)
                if number not in found.values() and find(texts, wanted, tags, recorder)
            ]
            if len(at) > 1:
                raise RecordError(
                    f"{name}:{layout.line}",
                    f"columns {_names(layout, at)} can all be {wanted.tag}",
                    f"say which is, in a map: columns: {{{wanted.tag}: {layout.names[at[0]]!r}}}",
                )
            if at:
                found[wanted.tag] = at[0]
                if find is not _by_tag:
                    notes.append(f"{name}: column {layout.names[at[0]]!r} is {wanted.tag}.")
    return Claims(
        {wanted.tag: found[wanted.tag] for wanted in tags if wanted.tag in found}, tuple(notes)
    )


def _heads(layout: Layout) -> list[set[str]]:
    """All that stands over each column, without regard to case."""
    heads = []
    for at in range(layout.width):
        texts = {layout.names[at], *(alias[at] for alias in layout.aliases)}
        heads.append({_fold(text) for text in texts if text})
    if not layout.line:
        heads = [{f"column {at + 1}"} for at in range(layout.width)]
    return heads


def _fold(text: str) -> str:
    return " ".join(text.casefold().split())


def _by_tag(texts: set[str], wanted: Wanted, tags: Sequence[Wanted], recorder: str) -> bool:
    return wanted.tag.casefold() in texts


def _by_tag_and_channel(
    texts: set[str], wanted: Wanted, tags: Sequence[Wanted], recorder: str
) -> bool:
    return any(_has_tag_and_channel(text, wanted) for text in texts)


def _by_channel(texts: set[str], wanted: Wanted, tags: Sequence[Wanted], recorder: str) -> bool:
    return any(_is_channel(text, wanted, tags, recorder) for text in texts)


def _has_tag_and_channel(text: str, wanted: Wanted) -> bool:
    """`CH1 T1`, `T1 (R2 ch 1)`: the tag, and nothing beside it but a channel."""
    tag = re.escape(wanted.tag.casefold())
    rest, count = re.subn(rf"(?<![\w-]){tag}(?![\w-])", " ", text, count=1)
    if not count:
        return False
    rest = rest.strip(" ()[]:;,/-_")
    if wanted.recorder.instrument is not None:
        rest = re.sub(rf"^{re.escape(wanted.recorder.instrument.casefold())}\b\s*", "", rest)
    return not rest or (_CHANNEL.fullmatch(rest) is not None and not rest.isdigit())


def _is_channel(text: str, wanted: Wanted, tags: Sequence[Wanted], recorder: str) -> bool:
    """`R2 ch 1`, and `CH1` or `1` where only one recorder can be meant."""
    number, own = wanted.recorder.number, wanted.recorder.instrument
    if number is None or own is None or not wanted.connected:
        return False
    named = re.match(rf"{re.escape(own.casefold())}[\s/:._-]+", text)
    rest = text[named.end() :] if named else text
    channel = _CHANNEL.fullmatch(rest.strip())
    if channel is None or int(channel[1]) != number:
        return False
    if named or recorder:
        return bool(named) or recorder.casefold() == own.casefold()
    return all(
        other.recorder.instrument == own for other in tags if other.recorder.number == number
    )


def _names(layout: Layout, numbers: list[int]) -> str:
    *before, last = (repr(layout.names[at]) for at in numbers)
    return f"{', '.join(before)} and {last}"
