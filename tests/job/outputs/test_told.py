"""Every file of a compiled job, word for word, of texts that say nearly everything."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

import pytest

from hts.base.quantities import TIME, Quantity
from hts.checking.govern.case import Case
from hts.job.compiler import compile_spec
from hts.job.outputs import files, weld_lists
from hts.job.outputs.index_page import Entry, index_page
from hts.job.outputs.job_files import JOB_JSON, NAMES
from hts.job.outputs.weld_table import as_csv, summed, weld_tables
from tests import told
from tests.rich import texts

KEPT = Path(__file__).with_name("told")
#: Long, and said in the sheets as well.
_WITHOUT = frozenset(("hts", "schema", "fingerprint", "sha256", "rows", "schedule"))


@cache
def _files(name: str) -> dict[str, str]:
    job = compile_spec(texts.spec(name), Quantity.read("90 min", TIME))
    found = {}
    for file, data in files(job).items():
        text = data.decode()
        if file == JOB_JSON:
            text = "\n".join(dict.fromkeys(told.leaves(json.loads(text), _WITHOUT)))
        found[file] = text.replace("\r", "")
    return found


@pytest.mark.parametrize("file", NAMES)
def test_a_file(file: str) -> None:
    """Of the file for programs the first of each kind of line, without facts of the joint and what
    the text says: they are told elsewhere, and what is in it stands in the sheets as well."""
    made = {name: _files(name)[file] for name in texts.NAMES if file in _files(name)}
    if file != JOB_JSON:
        told.each_once(KEPT / f"{file}.txt", made)
        return
    lines = [line for text in made.values() for line in text.splitlines()]
    kinds = {
        line.partition(":")[0]: line
        for line in reversed(lines)
        if not line.startswith(("joints/facts", "spec/", "used/"))
    }
    told.same(
        KEPT / f"{file}.txt", "all", "\n".join([*reversed(kinds.values()), told.digest(lines)])
    )


#: A weld of its own over a row of the list, heaters without their power, and lists told whole.
_OVER = """
joint W402 in line-welds {
  heating by resistance accepted by "Owner's engineer" {
    soak band      by rule
    heated band    500 mm total
    gradient band  by rule
    zone top       from 9:00 to 3:00
    zone bottom    from 3:00 to 9:00 power 5 kW
  }
}
"""


@pytest.mark.parametrize("name", ["welds-with-commas", "pipe-a"])
def test_an_index_of_papers(name: str) -> None:
    job = texts.job(name)
    entries = [
        Entry(sheet.joint.name, (sheet,), ("tags.md", f"packet-{sheet.joint.name}.pdf"))
        for sheet in job.joints
    ]
    page = index_page(job, entries, ["job.json", "W1/tags.md"]).replace("</", "\n</")
    told.same(KEPT / "index.txt", name, page)
    sheet = job.joints[0]
    both = index_page(job, [Entry("both", (sheet, sheet), ("tags.md",))], [])
    assert (", heated together<" in both, "heated together" in page) == (True, False)


@pytest.mark.parametrize("more", ["", _OVER])
def test_welds_of_a_list(more: str) -> None:
    spec = texts.spec("welds-with-commas", more)
    lines = []
    for table in weld_tables(Case(spec)):
        lines += [summed(table), *as_csv(table).splitlines()]
        lines += weld_lists.said(spec, table.rows[0][:1])
    told.same(KEPT / "weld-list.txt", "over a row" if more else "as read", "\n".join(lines))
