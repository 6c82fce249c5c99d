"""What the process that checks answers: to whom it goes, and what becomes of late answers."""

from __future__ import annotations

import asyncio
import json
from types import SimpleNamespace
from typing import Any

import pytest

from hts.editor.checks import Checks


async def _heard(made: Checks, *lines: dict[str, Any]) -> None:
    stdout = asyncio.StreamReader()
    for line in lines:
        stdout.feed_data(json.dumps(line).encode() + b"\n")
    stdout.feed_eof()
    await made._listen(SimpleNamespace(stdout=stdout))  # type: ignore[arg-type]


def _run(scene: Any) -> None:
    async def whole() -> None:
        told: list[tuple[str, int, list[str]]] = []
        made = Checks(lambda _: None, lambda *each: told.append((*each[:2], sorted(each[2]))))
        try:
            await scene(made, told)
        finally:
            made.stop()

    asyncio.run(whole())


def test_answers_to_questions() -> None:
    async def scene(made: Checks, told: list[Any]) -> None:
        loop = asyncio.get_running_loop()
        waiting, given_up, never = (loop.create_future() for _ in range(3))
        made._questions = {1: given_up, 2: waiting, 4: never}
        given_up.cancel()
        await _heard(
            made,
            {"number": 1, "actions": ["late"]},
            {"number": 2, "actions": ["mend"]},
            {"number": 3, "actions": ["nobody asked"]},
        )
        assert waiting.result() == ["mend"]
        assert told == [] and made._questions == {}
        # The process has ended: who still waits is told so.
        with pytest.raises(OSError, match="the process ended"):
            never.result()

    _run(scene)


def test_findings_go_to_their_text_and_what_follows_them() -> None:
    async def scene(made: Checks, told: list[Any]) -> None:
        made._asked = {1: ("a", 7), 2: ("b", 1)}
        made._checking = 2
        answer = made._answer
        await _heard(
            made,
            {"number": 1, "findings": [], "read": {"/lib.hts": [1], "/x.hts": [2]}},
            {"number": 2, "findings": [], "read": {"/lib.hts": [1]}},
            {"number": 2, "reasons": []},
        )
        assert told == [
            ("a", 7, ["findings", "number", "read"]),
            ("b", 1, ["findings", "number", "read"]),
            ("b", 1, ["number", "reasons"]),
        ]
        assert answer.result() is None
        # No answer to an earlier request comes any more.
        assert made._asked == {2: ("b", 1)}
        assert (made.using("/lib.hts"), made.using("/x.hts")) == (["a", "b"], ["a"])
        made.closed("a")
        assert made.using("/lib.hts") == ["b"]
        assert await made.actions("a", None) == []

    _run(scene)


def test_which_text_is_checked_next() -> None:
    """The quiet time counts from the last change, and the text that was quiet first comes first."""

    async def scene(made: Checks, told: list[Any]) -> None:
        asked: list[str] = []
        made._request = lambda key: asked.append(key)
        made.changed("later", quiet=600.0)
        made.changed("closed", quiet=0.0)
        made.changed("now", quiet=0.0)
        made.closed("closed")
        assert made._due["later"] - made._due["now"] > 300
        first = made._due["later"]
        made.changed("later", quiet=900.0)
        assert made._due["later"] - first > 200
        for _ in range(5):
            await asyncio.sleep(0)
        assert asked == ["now"] and list(made._due) == ["later"]

    _run(scene)
