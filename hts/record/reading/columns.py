"""Which column of a log belongs to which thermocouple."""

from __future__ import annotations

import re
from collections import OrderedDict
from collections.abc import Hashable, Sequence
from typing import NamedTuple, Protocol

from hts.record.errors import RecordError
from hts.record.reading.sniff import Layout
from hts.record.reading.units import temperature_unit


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
    @property
    def spare_of(self) -> str: ...


class Claims(NamedTuple):
    """Tag -> number of its column, and sentences on how a column was found where not by name."""

    columns: dict[str, int]
    notes: tuple[str, ...]


_CHANNEL = re.compile(
    r"(?:ch(?:an(?:nel)?)?|input|in|ai|analog(?: input)?|pv|kanal)?\s*[.#_-]?\s*0*(\d{1,4})", re.I
)
#: A column by its place.
_NUMBERED = re.compile(r"(column )?(\d{1,4})", re.I)
#: Words before a number that may be that of the tag or that of the channel.
_EITHER = re.compile(
    r"(?:tc|t/c|thermocouple|temp(?:erature)?|sensor|probe|point)\s*[.#_-]?\s*0*(\d{1,4})([a-z]?)",
    re.I,
)
_TAG = re.compile(r"([a-z]+)[\s._-]*0*(\d+)\s*([a-z]*)", re.I)
#: Beside a tag these words say that the column is not its reading.
_NO_READING = re.compile(
    r"\b(?:sp|set ?-?point|target|program|out(?:put)?|power|duty|load|alarm|status|state|flag|mode"
    r"|min|max|mean|avg|average|dev(?:iation)?|diff(?:erence)?|error|rate|slope|spread|spare|limit|low"
    r"|high|raw|mv|cold ?junction|cj|ref(?:erence)?|minus|old|new|backup)\b|[-+*/]\s*[a-z]+\d",
    re.I,
)
#: What a spare is called beside its tag; beside another's tag they say that it is not its reading.
_SPARE = re.compile(r"\b(?:spare|backup)\b", re.I)

#: What was found for logs with the same headings, the last of them.
_MOST_KNOWN = 16
_known: OrderedDict[Hashable, Claims] = OrderedDict()


class _Find(Protocol):
    def __call__(
        self, texts: set[str], wanted: Wanted, tags: Sequence[Wanted], recorder: str
    ) -> bool: ...


def claims(
    layout: Layout, name: str, tags: Sequence[Wanted], mapped: dict[str, str], recorder: str
) -> Claims:
    """By the map first, then by the tag, then by recorder and channel.

    `mapped` is tag -> name of a column; `recorder` the instrument the log itself names, or "".
    Raises RecordError when two columns claim one tag, or the map names what is not there.
    """
    # All that it hangs on: a recorder writes every log alike.
    asked: Hashable = (
        (layout.names, layout.units, layout.aliases, layout.line, recorder),
        tuple((one.tag, one.connected, one.spare_of, one.recorder.instrument, one.recorder.number)
              for one in tags),
        tuple(mapped.items()),
    )  # fmt: skip
    if asked not in _known:
        _known[asked] = _claims(layout, name, tags, mapped, recorder)
        if len(_known) > _MOST_KNOWN:
            _known.popitem(last=False)
    return _known[asked]


def _claims(
    layout: Layout, name: str, tags: Sequence[Wanted], mapped: dict[str, str], recorder: str
) -> Claims:
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
        numbered = _NUMBERED.fullmatch(column.strip())
        if not at and numbered and (numbered[1] or not layout.line):
            at = [int(numbered[2]) - 1] if 1 <= int(numbered[2]) <= layout.width else []
        if not at:
            raise RecordError(
                name,
                f"there is no column {column!r}, which the map gives to {tag}",
                f"the columns are: {', '.join(columns_of(layout))}",
            )
        found[by_fold[tag.casefold()].tag] = at[0]
    free = [number for number in range(len(heads)) if number not in found.values()]
    ways: tuple[_Find | None, ...] = (
        *(_by_tag, _by_tag_and_channel, _by_spelling, _by_first_word, _by_channel),
        None,  # by a number that is that of the tag or that of the channel
    )
    for find in ways:
        missing = [wanted for wanted in tags if wanted.tag not in found]
        if not missing or not free:
            break
        if find is None:
            find = _numbered([heads[number] for number in free], layout, name, missing, tags)
        for wanted in missing:
            at = [
                number
                for number in free
                if find(heads[number], wanted, tags, recorder)
                and (find is _by_tag or _may_be_temperature(layout.units[number]))
            ]
            if len(at) > 1:  # one of them in mV, % or the like
                at = [one for one in at if _may_be_temperature(layout.units[one])] or at
            if len(at) > 1:
                raise RecordError(
                    f"{name}:{layout.line}",
                    f"columns {_names(layout, at)} can all be {wanted.tag}",
                    f"say which is, in a map: columns: {{{wanted.tag}: {_by_itself(layout, at)}}}",
                )
            if at:
                found[wanted.tag] = at[0]
                free.remove(at[0])
                if find is not _by_tag:
                    notes.append(f"Column {layout.names[at[0]]!r} is {wanted.tag}.")
    return Claims(
        {wanted.tag: found[wanted.tag] for wanted in tags if wanted.tag in found}, tuple(notes)
    )


def _by_itself(layout: Layout, numbers: list[int]) -> str:
    """The first of these columns, by its place where another has its name."""
    names = [layout.names[at] for at in numbers]
    return f"column {numbers[0] + 1}" if names.count(names[0]) > 1 else repr(names[0])


def columns_of(layout: Layout) -> list[str]:
    """The columns as a message may name them."""
    return [layout.names[at] or f"column {at + 1}" for at in range(layout.width)]


def _may_be_temperature(unit: str) -> bool:
    return not unit or temperature_unit(unit) is not None


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


def _by_spelling(texts: set[str], wanted: Wanted, tags: Sequence[Wanted], recorder: str) -> bool:
    """`T 1`, `T-1` and `T01` for T1, where no other tag is spelt so."""
    spelt = _spelt(wanted.tag)
    if spelt is None or any(tag is not wanted and _spelt(tag.tag) == spelt for tag in tags):
        return False
    return any(_spelt(text) == spelt for text in texts)


def _spelt(text: str) -> tuple[str, int, str] | None:
    found = _TAG.fullmatch(text)
    return (found[1].casefold(), int(found[2]), found[3].casefold()) if found else None


def _by_first_word(texts: set[str], wanted: Wanted, tags: Sequence[Wanted], recorder: str) -> bool:
    """`T1 weld 12 o'clock`, `T1S spare`: the tag, and words on where or what it is. Not `T1 SP`,
    `T1 spare`, and not a difference of two."""
    others = {tag.tag.casefold() for tag in tags if tag is not wanted}
    for text in texts:
        first, *rest = re.split(r"[\s:;,()/_-]+", text)
        about = text[len(first) :]
        if wanted.spare_of:
            about = _SPARE.sub("", about)
        if (
            first == wanted.tag.casefold()
            and not _NO_READING.search(about)
            and not others & set(rest)
        ):
            return True
    return False


def _numbered(
    heads: list[set[str]],
    layout: Layout,
    name: str,
    free: Sequence[Wanted],
    tags: Sequence[Wanted],
) -> _Find:
    """How `TC 3` is to be understood in this log: as T3 or as channel 3, whichever all such
    headings fit. Raises RecordError where both would, and mean different thermocouples."""
    said = {
        (int(found[1]), found[2].casefold()): text
        for texts in heads
        for text in texts
        if (found := _EITHER.fullmatch(text))
    }
    by_tag = {
        (spelt[1], spelt[2]): tag
        for tag in tags
        if (spelt := _spelt(tag.tag)) and spelt[0] in ("t", "tc")
    }
    own = {tag.recorder.instrument for tag in tags if tag.connected}
    by_channel = {(tag.recorder.number, ""): tag for tag in tags if tag.connected and len(own) == 1}
    as_tags, as_channels = said.keys() <= by_tag.keys(), said.keys() <= by_channel.keys()
    meant = by_tag if as_tags else by_channel
    if as_tags and as_channels:
        for key, text in said.items():
            if by_tag[key] is not by_channel[key] and by_tag[key] in free:
                one, other = by_tag[key].tag, by_channel[key].tag
                raise RecordError(
                    f"{name}:{layout.line}",
                    f"{text!r} can be {one}, or {other} on channel {key[0]}",
                    f"say which in a map beside the log: columns: {{{one}: …, {other}: …}}",
                )
    wanted_by = {text: meant[key].tag for key, text in said.items() if key in meant}

    def find(texts: set[str], wanted: Wanted, tags: Sequence[Wanted], recorder: str) -> bool:
        return any(wanted_by.get(text) == wanted.tag for text in texts)

    return find


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
