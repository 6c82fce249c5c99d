"""What `hts config` prints: each value with its origin, and mistakes with place and remedy."""

import json
import os
import tomllib
from pathlib import Path

from click.testing import CliRunner

from hts.checking.configuration import load
from hts.cli.config import command
from tests.checking.configuration.written import put


def run(*arguments: str) -> str:
    done = CliRunner().invoke(command, arguments)
    assert done.exit_code == 0, done.output
    return done.output


def test_each_value_is_printed_with_its_origin(root: Path) -> None:
    put(root, "# x\nignore = ['zone-gap']\n[labels]\nwidth = '1 in'\n")
    lines = run(str(root / "a")).splitlines()
    assert [line for line in lines if "hts.toml" in line] == [
        'ignore = ["zone-gap"]       # hts.toml:2:1',
        'labels.width = "25.4 mm"    # hts.toml:4:1',
    ]
    assert 'paper.sheet = "A4"          # default' in lines
    assert lines[-1] == "# left out: Z113"


def test_what_is_printed_can_be_configured(root: Path) -> None:
    put(
        root,
        "select = ['Z', 'Y']\nignore = ['zone-gap']\nbooks = ['asme-b31.3 edition 2018']\n"
        "[severity]\nmissing-spare = 'error'\n[paper]\nunits = 'US'\n"
        "[labels]\nheight = 'as fits'\nleft = '1/2 in'\nrows = 4\n",
    )
    first, text = load(str(root)), run(str(root))
    tomllib.loads(text)
    put(root, text)
    again = load(str(root))
    assert (again.digest, again.severity, again.sheet) == (first.digest, first.severity, "A4")
    assert {key: again.labels[key] for key in first.labels} == first.labels


def test_as_json(root: Path) -> None:
    put(root, "ignore = ['zone-gap']\n")
    data = json.loads(run(str(root), "--format", "json"))
    assert data["values"]["ignore"] == {
        "value": ["zone-gap"],
        "origin": "hts.toml:1:1",
        "meaning": "Rules to leave out",
    }
    assert data["values"]["paper.sheet"]["origin"] == "default"
    assert data["left_out"] == ["Z113"]


def test_a_mistake_ends_with_place_and_remedy(root: Path) -> None:
    put(root, '"\\u001b[31m\\u202e" = 1\n')
    done = CliRunner().invoke(command, [str(root)])
    assert done.exit_code != 0
    assert "hts.toml:1:1: there is no key '\\x1b[31m\\u202e'" in done.output
    assert "\x1b" not in done.output and "\u202e" not in done.output


def test_a_folder_name_cannot_steer_the_terminal(root: Path) -> None:
    folder = root / "a\x1b[31m"
    folder.mkdir()
    put(folder, "ignroe = 1\n")
    os.chdir(root)
    assert "\x1b" not in CliRunner().invoke(command, [str(folder)]).output
