"""What must hold after a command, whatever it was given."""

from __future__ import annotations

import csv
import io
import json
import os
import zipfile
from collections.abc import Callable
from random import Random
from typing import TYPE_CHECKING
from xml.etree import ElementTree

from tests.fuzz.run import Broken, Ran, run
from tests.fuzz.spoil import spoiled
from tests.fuzz.trial import try_text

if TYPE_CHECKING:
    from tests.fuzz.areas import Trial
    from tests.fuzz.workplace import Workplace


def look(trial: Trial, ran: Ran, place: Workplace) -> None:
    """What holds for every command. Raises Broken."""
    if ran.code not in (0, 1, 2):
        raise Broken(f"exit code {ran.code}")
    told = ran.out + ran.err
    if "a fault of hts" in told:
        raise Broken(told[told.index("a fault of hts") :][:300])
    if "Traceback" in told:
        raise Broken("a traceback")
    if ran.code == 2 and not told.strip():
        raise Broken("could not run, and does not say why")
    if ran.code == 1 and not told.strip() and trial.arguments[0] != "fingerprint":
        raise Broken("something is wrong, and nothing is said")
    if not "".join(c for c in told if c not in "\n\t").isprintable():
        odd = next(c for c in told if c not in "\n\t" and not c.isprintable())
        raise Broken(f"a character that steers a terminal: {odd!r}")
    if "json" in trial.arguments and (ran.code == 0 or ran.out):
        json.loads(ran.out)
    for path in place.changed(trial.files):
        if not any(path == w or path.startswith(f"{w}{os.sep}") for w in trial.writes):
            raise Broken(f"changed what it should not: {path}")
        if ran.code == 2 and path.startswith("out"):
            raise Broken(f"could not run, and wrote {path}")
        if os.path.exists(path) and path not in place.files:
            whole(path)
    if ran.running:
        raise Broken("a process or thread still runs")


def whole(path: str) -> None:
    """Raises where a file of a known kind is not whole."""
    with open(path, "rb") as file:
        content = file.read()
    ending = path.rpartition(".")[2]
    try:
        if ending == "json":
            json.loads(content)
        elif ending == "svg":
            ElementTree.fromstring(content)
        elif ending == "csv":
            list(csv.reader(io.StringIO(content.decode("utf-8-sig"))))
        elif ending == "xlsx":
            with zipfile.ZipFile(io.BytesIO(content)) as book:
                for name in book.namelist():
                    if name.endswith((".xml", ".rels")):
                        ElementTree.fromstring(book.read(name))
        elif ending == "pdf" and not (
            content.startswith(b"%PDF-") and content.rstrip().endswith(b"%%EOF")
        ):
            raise ValueError("no whole PDF")
    except (ValueError, ElementTree.ParseError, zipfile.BadZipFile) as error:
        raise Broken(f"{path} is not whole: {error}") from error


def nothing_more(trial: Trial, ran: Ran) -> None:
    pass


def checks(trial: Trial, ran: Ran) -> None:
    """The exit code says what the report says."""
    report = json.loads(ran.out)
    grave = [f for f in report["findings"] if f["severity"] in ("error", "warning")]
    expected = 2 if report["failures"] else int(bool(grave))
    if ran.code != expected:
        raise Broken(f"exit code {ran.code}, and the report says {expected}")


def points(trial: Trial, ran: Ran) -> None:
    """Each finding points into its text, in the one order, and a second run finds the same."""
    name = trial.arguments[1]
    with open(name, "rb") as file:
        content = file.read()
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError:
        return
    try_text(os.path.abspath(name), text, root=os.getcwd())


def formats(trial: Trial, ran: Ran) -> None:
    """A text laid out stays as it is, and means the same."""
    name = trial.arguments[1]
    if ran.code:
        return
    before = trial.files.get(name)
    again = run(("fmt", "--check", "--no-cache", name))
    if again.code:
        raise Broken(f"laid out, and not as it would be: {again.out}{again.err}")
    if before is None:
        return
    with open("before.hts", "wb") as file:
        file.write(before)
    same = run(("diff", "before.hts", name, "--fail-on", "note", "--format", "json"))
    os.remove("before.hts")
    # What neither text lets anybody read is told as such, and is the same in both.
    changes = json.loads(same.out)["changes"] if same.out else []
    if same.code == 2 or any(each["kind"] != "unreadable text" for each in changes):
        raise Broken(f"laid out, and it means another thing: {same.out[:300]}{same.err[:300]}")


def same_as_itself(trial: Trial, ran: Ran) -> None:
    """A fingerprint is that of its text, and a text does not differ from itself."""
    name = trial.arguments[1]
    if ran.code == 0:
        again = run(("fingerprint", name, "--expect", ran.out.split()[0]))
        if again.code:
            raise Broken("not its own fingerprint")
    itself = run(("diff", name, name, "--fail-on", "note"))
    if itself.code == 1:
        raise Broken(f"it differs from itself: {itself.out[:300]}")


def compiles(trial: Trial, ran: Ran) -> None:
    """All files, or none."""
    if (ran.code == 0) != os.path.exists("out/job.json") and "--by-joint" not in trial.arguments:
        raise Broken(f"exit code {ran.code}, and the folder says otherwise")
    if ran.code and os.path.exists("out"):
        raise Broken(f"exit code {ran.code}, and files are written: {os.listdir('out')}")


def judges(trial: Trial, ran: Ran) -> None:
    """The exit code says what the judgement says."""
    if ran.code == 2:
        return
    overall = json.loads(ran.out)["overall"]
    if (overall == "met") != (ran.code == 0):
        raise Broken(f"{overall}, and exit code {ran.code}")


def kept(random: Random) -> Callable[[Trial, Ran], None]:
    """Whatever stands in the cache, the findings are those of the text."""

    def compare(trial: Trial, ran: Ran) -> None:
        fresh = run((*trial.arguments, "--no-cache"))
        for where, _, names in sorted(os.walk(os.environ["HTS_CACHE_DIR"])):
            for name in sorted(names):
                path = os.path.join(where, name)
                with open(path, "rb") as file:
                    content = file.read()
                with open(path, "wb") as file:
                    file.write(spoiled(random, content))
        again = run(trial.arguments)
        if (again.code, again.out) != (fresh.code, fresh.out):
            raise Broken("what was kept changes the findings")

    return compare
