"""Which specification, joint and cycle a log is of: what it says itself, or the map beside it, or
its name."""

from __future__ import annotations

import os
import re
from typing import NamedTuple

from hts.record.errors import RecordError
from hts.record.reading import yaml_text
from hts.record.reading.decode import decode
from hts.record.reading.source import beginning, beside, name_of
from hts.record.reading.yaml_text import Mapping

#: Bytes of a log that can stand before its readings.
_HEAD = 8192
#: Words with which a line before the readings names what the record is of.
_DOCUMENT = ("document", "procedure", "specification", "job")
_JOINT = ("joint", "weld")
_CYCLE = ("cycle", "treatment")
_FINGERPRINT = ("fingerprint",)
_LONGEST = 400
_LINE = re.compile(r'\s*#?\s*"?([A-Za-z][A-Za-z .]{2,30}?)"?\s*[,;:\t|=]\s*"?(.*?)"?[\s,;|]*')
_REVISION = re.compile(r"(.+?)[,;]?\s+rev(?:ision)?\.?\s+(\S+)", re.IGNORECASE)


class Labels(NamedTuple):
    """Empty where nothing is said."""

    document: str = ""
    revision: str = ""
    joint: str = ""
    cycle: str = ""
    fingerprint: str = ""


def labels(path: str) -> Labels:
    """What a log says it is of; the map beside it goes before its own lines. Raises RecordError."""
    found_labels = _own(path)
    map_beside = beside(path, ".yaml")
    if os.path.isfile(map_beside):
        name = os.path.basename(map_beside)
        value = yaml_text.load(map_beside, name)
        if isinstance(value, Mapping):
            for key in ("document", "joint", "cycle"):
                if key in value:
                    found_labels[key] = str(value[key])
    document, revision = found_labels.get("document", ""), ""
    found = _REVISION.fullmatch(document)
    if found is not None:
        document, revision = found[1], found[2]
    return Labels(
        document,
        revision,
        found_labels.get("joint", ""),
        found_labels.get("cycle", ""),
        found_labels.get("fingerprint", ""),
    )


def _own(path: str) -> dict[str, str]:
    name = name_of(path)
    data = beginning(path, _HEAD)
    try:
        # Half a letter at the end of what was read is no fault of the log.
        text = decode(data[: data.rfind(b"\n") + 1] or data, name)[0].decode("utf-8", "replace")
    except RecordError:
        return {}
    found_labels: dict[str, str] = {}
    for line in text.splitlines():
        if line[:1].isdigit():
            continue  # nearly all are readings
        found = _LINE.fullmatch(line[:_LONGEST])
        if found is None:
            continue
        key, value = found[1].strip().casefold(), found[2].strip()
        # A row of headings begins like a label and goes on.
        if set(value) & set(",;|\t") and _REVISION.fullmatch(value) is None:
            continue
        for field, words in (
            ("document", _DOCUMENT),
            ("joint", _JOINT),
            ("cycle", _CYCLE),
            ("fingerprint", _FINGERPRINT),
        ):
            if key in words and value:
                found_labels.setdefault(field, value)
    return found_labels
