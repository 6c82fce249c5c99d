"""What mends a finding: edits of its text, and how sure it is that they change no meaning."""

from __future__ import annotations

from typing import Literal, NamedTuple

FixKind = Literal["layout", "offered"]
#: The text is read as before; whoever applies it proves that.
LAYOUT: FixKind = "layout"
#: The text says something new: a person chooses, one at a time.
OFFERED: FixKind = "offered"


class Edit(NamedTuple):
    """``text`` in place of ``source.text[start:end]``, in code points."""

    start: int
    end: int
    text: str


class Fix(NamedTuple):
    """``title`` is an instruction such as "write `degC/h`"; the edits do not overlap."""

    title: str
    kind: FixKind
    edits: tuple[Edit, ...]

    def applied(self, text: str) -> str:
        """The text with all edits made."""
        for edit in sorted(self.edits, reverse=True):
            text = text[: edit.start] + edit.text + text[edit.end :]
        return text
