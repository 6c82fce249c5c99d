"""The process that checks while somebody writes: a line of JSON in for each text, one out for its
findings, and one for what was worked out.

It ends when the server that started it does. Run it as `python -P -m hts.editor.checking_process`.
"""

from __future__ import annotations

import json
import os
import sys
from queue import Queue
from threading import Thread
from typing import Any

from hts.editor.look import Looker, Wanted, worked_out


def main() -> None:
    """Answers until its input ends."""
    waiting: Queue[Any] = Queue()
    Thread(target=_listen, args=(waiting,), daemon=True).start()
    looker = Looker()
    while (request := waiting.get()) is not None:
        number = request.pop("number")
        if "between" in request:
            between = request.pop("between")
            _tell({"number": number, "actions": _actions(looker, Wanted(**request), between)})
            continue
        data, case = looker.look(Wanted(**request))
        _tell({"number": number, **data})
        # What is only a convenience waits for what is asked next.
        if case is not None and waiting.empty():
            _tell({"number": number, **worked_out(case, lambda: not waiting.empty())})


def _actions(looker: Looker, wanted: Wanted, between: Any) -> list[Any]:
    """What can be done; nothing where the text cannot be checked, which the findings tell."""
    try:
        return looker.actions(wanted, between)
    except Exception:
        if os.environ.get("HTS_DEBUG"):
            raise
        return []


def _listen(waiting: Queue[Any]) -> None:
    for line in sys.stdin.buffer:
        waiting.put(json.loads(line))
    waiting.put(None)


def _tell(data: Any) -> None:
    try:
        sys.stdout.buffer.write(json.dumps(data).encode("ascii") + b"\n")
        sys.stdout.buffer.flush()
    except BrokenPipeError:
        # The server is gone, and nobody listens any more.
        os._exit(0)


if __name__ == "__main__":
    main()
