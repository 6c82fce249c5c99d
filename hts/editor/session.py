"""What the server knows between two requests: the open texts, their last outcomes, its settings."""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import Any

from lsprotocol import types

from hts.base.shipped import shipped
from hts.base.text.reading import LARGEST
from hts.editor.buffer import Buffer, Lines, uri_of
from hts.editor.checks import Checks
from hts.editor.hints import Hint
from hts.editor.names import Declared
from hts.editor.place import Text
from hts.editor.reasons import Reason
from hts.editor.workspace import Workspace

Data = dict[str, Any]
SOURCE = "hts"
_SEVERITIES = {
    "error": types.DiagnosticSeverity.Error,
    "warning": types.DiagnosticSeverity.Warning,
    "advice": types.DiagnosticSeverity.Information,
}


class Outcome:
    """What came of the last check of a text: ``version`` is that of the text it is about."""

    def __init__(self, version: int, findings: list[Data]) -> None:
        self.version = version
        self.findings = findings
        self.reasons: list[Reason] = []
        self.hints: list[Hint] = []


class Session:
    """``publish(uri, version, diagnostics)`` and ``refresh()`` tell the editor."""

    def __init__(
        self,
        workspace: Workspace,
        publish: Callable[[str, int | None, list[types.Diagnostic]], None],
        refresh: Callable[[], None],
    ) -> None:
        self.workspace = workspace
        self.publish = publish
        self.refresh = refresh
        self.outcomes: dict[str, Outcome] = {}
        self.shows_hints = True
        #: Whether the editor knows places to fill in.
        self.takes_snippets = False
        self.checks = Checks(self._request, self._told)

    # The texts ------------------------------------------------------------------------------

    def opened(self, uri: str, text: str, version: int) -> None:
        """A text was opened: it is checked at once, and what uses it after that."""
        buffer = self.workspace.open(uri, text, version)
        self.outcomes.pop(uri, None)
        self.checks.changed(uri, quiet=0.0)
        self._others_using(buffer)
        # Read once now, so that the first completion need not.
        self.workspace.names(buffer)

    def changed(self, uri: str) -> None:
        """A text was changed."""
        buffer = self.workspace.buffers.get(uri)
        if buffer is not None:
            self.checks.changed(uri)
            self._others_using(buffer)

    def closed(self, uri: str) -> None:
        """A text was closed: its findings go."""
        buffer = self.workspace.buffers.get(uri)
        self.workspace.close(uri)
        self.checks.closed(uri)
        self.outcomes.pop(uri, None)
        self.publish(uri, None, [])
        if buffer is not None:
            self._others_using(buffer)

    def trust(self, trusted: bool) -> None:
        """Whether rule packs may run: a process that ran some is not kept for one that may not."""
        if trusted != self.workspace.trusted:
            self.workspace.trusted = trusted
            self.checks.begin_anew()

    def again(self) -> None:
        """Everything is checked again: a setting has changed."""
        for uri in self.workspace.buffers:
            self.checks.changed(uri)

    def _others_using(self, buffer: Buffer) -> None:
        if buffer.path is not None:
            for uri in self.checks.using(os.path.realpath(buffer.path)):
                if uri != buffer.uri:
                    self.checks.changed(uri)

    # Checks ---------------------------------------------------------------------------------

    def _request(self, uri: str) -> tuple[int, Data] | None:
        buffer = self.workspace.buffers.get(uri)
        if buffer is None:
            return None
        if buffer.too_large:
            told = {"fault": f"the text is larger than {LARGEST // 1_000_000} MB"}
            self.publish(uri, buffer.version, _notices(told))
            return None
        import datetime

        request = {
            "name": buffer.name,
            "text": buffer.text,
            "path": buffer.path,
            "folder": self.workspace.folder_of(buffer),
            "open": self.workspace.opened(),
            "trusted": self.workspace.trusted,
            "encoding": self.workspace.encoding,
            "today": datetime.date.today().isoformat(),
        }
        return buffer.version, request

    def _told(self, uri: str, version: int, data: Data) -> None:
        buffer = self.workspace.buffers.get(uri)
        if buffer is None or buffer.version != version:
            return
        if "findings" in data:
            self.outcomes[uri] = Outcome(version, data["findings"])
            found = [self._diagnostic(buffer, each) for each in data["findings"]]
            self.publish(uri, version, [*_notices(data), *found])
            return
        outcome = self.outcomes.get(uri)
        if outcome is not None and outcome.version == version:
            outcome.reasons = [Reason(*each) for each in data["reasons"]]
            outcome.hints = [Hint(*each) for each in data["hints"]]
            self.refresh()

    def outcome(self, buffer: Buffer) -> Outcome | None:
        """The outcome of the text as it is now; None while it is being checked."""
        outcome = self.outcomes.get(buffer.uri)
        return outcome if outcome is not None and outcome.version == buffer.version else None

    def reasons(self, buffer: Buffer) -> list[Reason]:
        """The reasons last worked out; they name things and no lines, so that an older text's will
        do for a moment."""
        outcome = self.outcomes.get(buffer.uri)
        return outcome.reasons if outcome is not None else []

    # Places ---------------------------------------------------------------------------------

    def range(self, buffer: Buffer, start: int, end: int) -> types.Range:
        """The range of two offsets of an open text."""
        return types.Range(
            types.Position(*buffer.position(start)), types.Position(*buffer.position(end))
        )

    def location(self, text: Text, start: int, end: int) -> types.Location | None:
        """Where a piece of a text is; None for a text that is nowhere any more."""
        path = text.source.path
        for buffer in self.workspace.buffers.values():
            if buffer.placed is text:
                return types.Location(buffer.uri, self.range(buffer, start, end))
        if path is None:
            return None
        lines = Lines(text.source.text, self.workspace.encoding)
        found = types.Range(
            types.Position(*lines.position(start)), types.Position(*lines.position(end))
        )
        return types.Location(uri_of(path), found)

    def declared(self, uri: str, offset: int) -> Declared | None:
        """What the name at an offset is declared as."""
        buffer = self.workspace.buffers[uri]
        place = buffer.placed.at(offset)
        return self.workspace.names(buffer).declared_at(place) if place is not None else None

    # Findings -------------------------------------------------------------------------------

    def _diagnostic(self, buffer: Buffer, finding: Data) -> types.Diagnostic:
        end = max(finding["end"], finding["start"])
        return types.Diagnostic(
            self.range(buffer, finding["start"], end),
            finding["message"],
            severity=_SEVERITIES[finding["severity"]],
            code=f"{finding['code']} {finding['name']}",
            code_description=_rule_page(finding["code"], finding["name"]),
            source=SOURCE,
            tags=[types.DiagnosticTag.Unnecessary] if finding["name"] == "unused-waiver" else None,
            related_information=[
                found for each in finding["others"] if (found := self._related(buffer, each))
            ],
        )

    def _related(self, buffer: Buffer, other: Data) -> types.DiagnosticRelatedInformation | None:
        if "start" in other:
            at = types.Location(buffer.uri, self.range(buffer, other["start"], other["end"]))
        elif other["path"] is None:
            return None
        else:
            between = types.Range(types.Position(*other["from"]), types.Position(*other["to"]))
            at = types.Location(uri_of(other["path"]), between)
        return types.DiagnosticRelatedInformation(at, other["text"] or "here")


def _notices(data: Data) -> list[types.Diagnostic]:
    """What hindered the check, told at the first line: no silence is taken for a verdict."""
    found = []
    first = types.Range(types.Position(0, 0), types.Position(0, 1))
    if data.get("fault"):
        found.append(
            types.Diagnostic(
                first,
                f"not checked: {data['fault']}",
                severity=types.DiagnosticSeverity.Error,
                source=SOURCE,
            )
        )
    for fault in data.get("faults", ()):
        found.append(
            types.Diagnostic(
                first,
                f"not judged: {fault}",
                severity=types.DiagnosticSeverity.Error,
                source=SOURCE,
            )
        )
    if data.get("untrusted"):
        found.append(
            types.Diagnostic(
                first,
                f"the rule packs named at {data['untrusted']} are not run, so that their rules are "
                "not judged: they are code, and this folder is not trusted in the editor",
                severity=types.DiagnosticSeverity.Warning,
                source=SOURCE,
            )
        )
    return found


def _rule_page(code: str, name: str) -> types.CodeDescription | None:
    """The page of a rule in the reference that is installed with the program."""
    page = reference("RULES.md")
    return types.CodeDescription(f"{uri_of(page)}#{code.lower()}-{name}") if page else None


def reference(name: str) -> str | None:
    """Path of a reference that is installed with the program, None where it is not."""
    return shipped("grammar", name)
