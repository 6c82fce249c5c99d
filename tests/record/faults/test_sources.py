"""Every threshold of a detector says where it comes from."""

import re
from pathlib import Path

from hts.generate import ROOT
from tests.rows import each_row

#: What is a list or a size and decides nothing.
NONE_NEEDED = {
    "KINDS",
    "_DETECTORS",
    "_COARSE",
    "_TYPES",
    "_OFF_PART",
    "_COOLER",
    "_BENDS",
    "_PAIRS",
}
SAID = re.compile(r"[Bb]asis|derived|IEC|JCGM|source|practice")
CONSTANT = re.compile(r"^([A-Z_]+)(?:, [A-Z_]+)* = [-(\d]")


@each_row("path", sorted(Path(ROOT, "hts/record/faults").glob("*.py")), ids=lambda path: path.stem)
def test_each_threshold_has_a_source_or_is_called_ours(path: Path) -> None:
    comment, silent = "", []
    for line in path.read_text().splitlines():
        found = CONSTANT.match(line)
        if line.startswith("#"):
            comment += line
        elif found is None:
            comment = ""  # constants one after the other share what stands above them
        elif found[1] not in NONE_NEEDED and not SAID.search(comment):
            silent.append(found[1])
    assert silent == []
