"""How commands refuse, and what git is told that calls one: its words and how it ends, one line a
command, as typed in the folder of an invented plant."""

from __future__ import annotations

import os
from pathlib import Path
from unittest.mock import patch

from hts.job.comparison.driver import CALLED_BY_GIT
from tests.cli.test_told import BUTT, answer, folder_of_a_plant
from tests.language.rows.lists import job

TEXTS = {
    "plain.hts": f"spec 1\n{BUTT[BUTT.index('material') : BUTT.index('preheat')]}",
    "bare.hts": "spec 1\n" + "".join(f"joint W{n} {{\n}}\n" for n in range(12)),
    "jobless.hts": f"spec 1\n{job()[job().index('material') :]}",
    "odd.csv": 'weld,size\nW1,"12\nW2,12\n',
}
#: Command, exit code, and how its answer ends: `! ` begins what is no answer but a message.
REFUSED = [
    ("predict damaged.hts", 1,
     "! nothing is predicted: the text has errors; run: hts check damaged.hts"),
    ("predict good.hts W99", 1,
     "! nothing is predicted: the specification has no treatment at W99"),
    ("predict plain.hts", 1, "! nothing is predicted: the specification has no treatment"),
    ("view nowhere.hts", 2, "! Error: there is no file or folder nowhere.hts"),
    ("view good.hts --export out --record log.csv", 2,
     "! Error: --export is for specifications: leave --record and --watch out"),
    ("view good.hts --export out --watch log.csv", 2,
     "! Error: --export is for specifications: leave --record and --watch out"),
    ("view good.hts --predict", 2,
     "! Error: --predict goes with --export: in the browser, each page leads there"),
    ("view . --record log.csv", 2,
     "! Error: --record and --watch need the specification of the run: name it"),
    ("view . --watch log.csv", 2,
     "! Error: --record and --watch need the specification of the run: name it"),
    ("view empty --export out", 2, "! Error: empty: there is no .hts file in this folder"),
    ("view latin.hts --export out", 2,
     "! Error: SITE/latin.hts: the file is not UTF-8 text (byte 9); save it as UTF-8"),
    ("view good.hts --export out --joint W99", 2, "! Error: SITE/good.hts has no joint W99"),
    ("view good.hts --export out", 0, "\nout/HT-0001-A.html\nout/pages.sha256"),
    ("plan plain.hts", 1,
     "! nothing is planned: the file has no `job`, so its papers would have no number"),
    ("plan bare.hts", 1,
     "\n!   W4: joint W4 has no `kind` (kind of weld)\n!   and 7 more\n! run: hts check bare.hts"),
    ("weld-list jobless.hts --format xlsx -o welds.xlsx", 2,
     "! Error: the file has no `job`, so its papers would have no number; "
     "a workbook carries what is compiled"),
    ("new --weld-list odd.csv", 2,
     "! Error: odd.csv: line 2: the quote that opens here is not closed; close it, "
     "or double a quote that belongs to the text"),
]  # fmt: skip
#: Never a failure: git would stop its whole diff.
FOR_GIT = [
    ("good.hts", "good.hts: not merged yet"),
    ("welds.csv welds.csv 0000000 100644 welds.csv 1111111 100644",
     "welds.csv: not a specification; give git this command for *.hts only"),
    ("good.hts good.hts 0000000 100644 messy.hts 0000000 100644",
     "written differently, meaning the same:\n  layout\n\n"
     "good.hts -> good.hts: no change; 1 written differently only (layout)"),
    ("good.hts good.hts 0000000 100644 /dev/null 0000000 000000",
     "good.hts -> no such file: 1 re-approve"),
    ("good.hts /dev/null 0000000 000000 /dev/null 0000000 000000", "(exit 0)"),
    ("latin.hts good.hts 0000000 100644 latin.hts 0000000 100644",
     "cannot compare latin.hts: the file is not UTF-8 text (byte 9); save it as UTF-8"),
    ("good.hts good.hts 0000000 100644 wrong.hts 0000000 100644 --approvals nowhere.json",
     "cannot compare good.hts: nowhere.json: no such file or directory"),
    ("good.hts good.hts 0000000 100644 wrong.hts 1111111 100644", "and so on"),
]  # fmt: skip


def test_refused_or_told_to_git(tmp_path: Path) -> None:
    site = folder_of_a_plant(tmp_path / "site")
    for name, text in TEXTS.items():
        (site / name).write_text(text, "utf-8")
    wrong = []
    for line, code, ends in REFUSED:
        said = answer(site, f"hts {line}")
        if f"  (exit {code})\n" not in said or not said.endswith(ends):
            wrong.append(said)
    with patch.dict(os.environ, {CALLED_BY_GIT: "1"}):
        for line, ends in FOR_GIT:
            said = answer(site, f"hts diff {line}")
            if "  (exit 0)" not in said or not said.endswith(ends):
                wrong.append(said)
    assert not wrong, "\n\n".join(wrong)
