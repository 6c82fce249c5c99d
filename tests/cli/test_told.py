"""What commands print, word for word: what each one answers, and how it refuses.

Every line of `SAID` is a command as it is typed in a folder with a small repository of a plant that
is invented, like all of Tern Island. Of a long answer the beginning is kept: the rest is held by
the room it comes from.
"""

from __future__ import annotations

import json
import shlex
import subprocess
from collections.abc import Iterator
from pathlib import Path

from hts import __version__
from hts.checking.checker.all_kinds import all_kinds
from hts.checking.rules.examples import BASES
from hts.cli.completion import book_names, file_names, rule_names
from hts.cli.main import cli
from tests.cli.inside import hts
from tests.cli.said import SAID
from tests.language.rows.lists import job, table
from tests.told import each_once

TOLD = Path(__file__).with_name("told")
#: Lines of an answer that are kept as they are.
_LINES = 12

BUTT = BASES["butt"]
KINDS = {kind.code: kind for kind in all_kinds()}
WRONG = BUTT.replace("wall       25.4 mm measured", "wall       2.54 mm measured")
CHANGED = BUTT.replace("revision     A on", "revision     B on").replace(
    "girth butt", "girth butt "
)


def folder_of_a_plant(folder: Path) -> Path:
    folder.mkdir()
    texts = {
        "good.hts": BUTT, "wrong.hts": WRONG, "changed.hts": CHANGED, "list.hts": job(),
        "welds.csv": table(), "messy.hts": BUTT.replace("  kind ", "\tkind  ") + "\n\n",
        "slip.hts": BUTT.replace("NPS 12 schedule 120", "NPS 12 schedul 120"),
        "open.hts": BUTT.replace("wall       25.4 mm measured", "wall       25.4 mm nominal"),
        "damaged.hts": BUTT.replace("joint W12 {", "joint W12").replace("25.4 mm", "25,4 mm"),
        "bad.toml": "ignore = [\n", "odd.toml": 'ignor = ["K101"]\nwidth = "x"\n',
        "quiet.toml": 'ignore = ["J206"]\ntoday = "2026-11-19"\n',
        "ready.csv": "weld,ready\nW12,2026-12-02 10:00\n", "hts.toml": 'today = "2026-11-20"\n',
    }  # fmt: skip
    for name, text in texts.items():
        (folder / name).write_text(text, "utf-8")
    (folder / "latin.hts").write_bytes(b"spec 1\n# \xe9\n")
    (folder / "empty").mkdir()
    name = ("-c", "user.name=a", "-c", "user.email=a@example.org")
    for arguments in (("init", "-q"), ("add", "good.hts", "hts.toml"), ("commit", "-qm", "first")):
        subprocess.run(["git", "-C", str(folder), *name, *arguments], check=True)
    return folder


def answer(folder: Path, line: str) -> str:
    command, _, given = line.partition(" < ")
    data = (folder / given).read_bytes() if given else b""
    done = hts(folder, *shlex.split(command)[1:], data=data)
    parts = [f"$ {line}  (exit {done.returncode})"]
    for name, text in (("", done.stdout), ("! ", done.stderr)):
        lines = text.replace(str(folder), "SITE").replace(__version__, "VERSION").splitlines()
        if len(lines) > _LINES:
            lines = [*lines[:_LINES], "and so on"]
        parts += [f"{name}{each}".rstrip() for each in lines]
    return "\n".join(parts)


def helps(site: Path) -> Iterator[str]:
    known = [(name, []) for name in cli.list_commands(None)]  # type: ignore[arg-type]
    known += [("record", [name]) for name in ("check", "simulate", "watch")]
    # A command keeps the names of its help from whoever asked first, be it without the others.
    for name, more in known:
        command = cli.get_command(None, name)  # type: ignore[arg-type]
        for each in (command, *(command.get_command(None, m) for m in more)):  # type: ignore
            each._help_option = None
    lines = [shlex.join(["hts", name, *more, "--help"]) for name, more in known]
    return (answer(site, line) for line in [*lines, "hts", "hts chek"])


def test_told(tmp_path: Path) -> None:
    texts = {}
    for name, said in SAID.items():
        # What one command of a part leaves behind the next ones find.
        site = folder_of_a_plant(tmp_path / name)
        texts[name] = "\n".join(answer(site, line.strip()) for line in said.strip().splitlines())
    texts["help"] = "\n".join(helps(site))
    each_once(TOLD / "commands.txt", texts)


def test_rules_as_data_end_with_one_line_break(tmp_path: Path) -> None:
    for asked in (["K101"], ["--family", "bands"]):
        out = hts(tmp_path, "rules", *asked, "--format", "json").stdout
        assert json.loads(out) and out == f"{out.rstrip()}\n"


def test_what_a_shell_completes() -> None:
    said = [(each.value, each.help) for each in rule_names(None, None, "J20")]  # type: ignore[arg-type]
    assert ("J205", KINDS["J205"].summary) in said
    assert all(code.startswith("J20") for code, _ in said)
    names = [each.value for each in rule_names(None, None, "wall-of")]  # type: ignore[arg-type]
    assert names == [KINDS["J205"].name]
    assert book_names(None, None, "asme-viii") == ["asme-viii-1", "asme-viii-2"]  # type: ignore[arg-type]
    (found,) = file_names(None, None, "sp")  # type: ignore[arg-type]
    assert (found.value, found.type) == ("sp", "file")
