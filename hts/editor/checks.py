"""Which text is checked when: after a quiet time, the newest first, and never an older outcome
after a newer one."""

from __future__ import annotations

import asyncio
import contextlib
import json
import sys
from collections.abc import Callable
from typing import Any

from hts.editor.look import stamp

#: Seconds without a change before a text is checked.
QUIET = 0.12
#: Seconds between two looks at the files that the open texts use.
LOOK = 0.7
#: Seconds after which a check is given up, and how often the process is started anew.
_LONGEST = 60.0
_STARTS = 5
#: Bytes of the longest answer.
_LARGEST = 200_000_000

Request = dict[str, Any]


class Checks:
    """Has texts checked in a process of its own.

    ``request(key)`` gives what to check at the moment, None where the text is closed; ``told(key,
    version, data)`` is called with each answer.
    """

    def __init__(
        self,
        request: Callable[[str], tuple[int, Request] | None],
        told: Callable[[str, int, Request], None],
    ) -> None:
        self._request = request
        self._told = told
        #: Texts to check, and when: the quiet time counts from the last change.
        self._due: dict[str, float] = {}
        self._wake = asyncio.Event()
        self._process: asyncio.subprocess.Process | None = None
        self._started = 0
        self._number = 0
        #: Text and version of each request that an answer may still come to.
        self._asked: dict[int, tuple[str, int]] = {}
        self._answer: asyncio.Future[None] = asyncio.get_running_loop().create_future()
        #: Number of the check that is being waited for, and the questions asked besides.
        self._checking = 0
        self._questions: dict[int, asyncio.Future[list[Request]]] = {}
        self._listening: asyncio.Task[None] | None = None
        self._reads: dict[str, dict[str, tuple[int, ...]]] = {}
        self._tasks = [asyncio.create_task(self._run()), asyncio.create_task(self._watch())]

    def changed(self, key: str, *, quiet: float = QUIET) -> None:
        """A text has changed, or something it uses."""
        self._due[key] = asyncio.get_running_loop().time() + quiet
        self._wake.set()

    def closed(self, key: str) -> None:
        """A text is no longer open."""
        self._due.pop(key, None)
        self._reads.pop(key, None)

    def using(self, path: str) -> list[str]:
        """The texts whose outcome rests on a file, by its real path."""
        return [key for key, files in self._reads.items() if path in files]

    async def actions(self, key: str, between: tuple[int, int] | None) -> list[Request]:
        """What can be done between two offsets of a text, or with None about its layout; nothing
        where it is closed or the process cannot answer."""
        asked = self._request(key)
        if asked is None:
            return []
        try:
            process = await self._running()
            self._number += 1
            answer = self._questions[self._number] = asyncio.get_running_loop().create_future()
            question = {"number": self._number, "between": between, **asked[1]}
            assert process.stdin is not None
            process.stdin.write(json.dumps(question).encode() + b"\n")
            found: list[Request] = await asyncio.wait_for(answer, _LONGEST)
            return found
        except (OSError, TimeoutError):
            return []

    def begin_anew(self) -> None:
        """The next check runs in a fresh process."""
        self._end()

    def stop(self) -> None:
        """Ends the process."""
        for task in self._tasks:
            task.cancel()
        self._end()

    # ------------------------------------------------------------------------------------------

    async def _run(self) -> None:
        loop = asyncio.get_running_loop()
        while True:
            if not self._due:
                self._wake.clear()
                await self._wake.wait()
            key = min(self._due, key=lambda each: self._due[each])
            left = self._due[key] - loop.time()
            if left > 0:
                self._wake.clear()
                with contextlib.suppress(TimeoutError):
                    await asyncio.wait_for(self._wake.wait(), left)
                continue
            del self._due[key]
            asked = self._request(key)
            if asked is not None:
                await self._check(key, *asked)

    async def _check(self, key: str, version: int, request: Request) -> None:
        try:
            process = await self._running()
            self._number += 1
            self._checking = self._number
            answer = self._answer = asyncio.get_running_loop().create_future()
            self._asked[self._number] = (key, version)
            assert process.stdin is not None
            process.stdin.write(json.dumps({"number": self._number, **request}).encode() + b"\n")
            await process.stdin.drain()
            await asyncio.wait_for(answer, _LONGEST)
            self._started = 0
        except (OSError, TimeoutError) as error:
            self._end()
            why = "it takes too long" if isinstance(error, TimeoutError) else "it ended by itself"
            message = f"the process that checks was stopped: {why}; the text is not judged"
            self._told(key, version, {"findings": [], "fault": message})

    async def _listen(self, process: asyncio.subprocess.Process) -> None:
        """Takes what the process tells: the findings of a text, and later what was worked out."""
        assert process.stdout is not None
        while line := await process.stdout.readline():
            data = json.loads(line)
            number = data["number"]
            if "actions" in data:
                question = self._questions.pop(number, None)
                if question is not None and not question.done():
                    question.set_result(data["actions"])
                continue
            key, version = self._asked[number]
            self._asked = {n: asked for n, asked in self._asked.items() if n >= number}
            if "findings" in data:
                self._reads[key] = {path: tuple(was) for path, was in data["read"].items()}
            self._told(key, version, data)
            if number == self._checking and not self._answer.done():
                self._answer.set_result(None)
        open_ends: list[asyncio.Future[Any]] = [self._answer, *self._questions.values()]
        for waiting in open_ends:
            if not waiting.done():
                waiting.set_exception(OSError("the process ended"))
        self._questions.clear()

    async def _running(self) -> asyncio.subprocess.Process:
        if self._process is not None and self._process.returncode is None:
            return self._process
        if self._started >= _STARTS:
            raise OSError("it ended too often")
        self._started += 1
        # -P: nothing is imported from the folder an editor happens to be started in.
        self._process = await asyncio.create_subprocess_exec(
            sys.executable,
            "-P",
            "-m",
            "hts.editor.checking_process",
            stdin=asyncio.subprocess.PIPE,
            stdout=asyncio.subprocess.PIPE,
            limit=_LARGEST,
        )
        self._listening = asyncio.create_task(self._listen(self._process))
        return self._process

    def _end(self) -> None:
        if self._process is not None and self._process.returncode is None:
            self._process.kill()
        self._process = None

    async def _watch(self) -> None:
        """Looks whether a file that an open text uses was written by somebody else.

        Asking for times and sizes sees every save, on network drives, too, where nothing is told.
        """
        while True:
            await asyncio.sleep(LOOK)
            for key, files in list(self._reads.items()):
                if any(stamp(path) != was for path, was in files.items()):
                    self._reads[key] = {path: stamp(path) for path in files}
                    self.changed(key, quiet=0.0)
