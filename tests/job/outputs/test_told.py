"""Every file of a compiled job, word for word, of texts that say nearly everything."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path

import pytest

from hts.base.quantities import TIME, Quantity
from hts.job.compiler import compile_spec
from hts.job.outputs import files
from hts.job.outputs.job_files import JOB_JSON, NAMES
from tests import told
from tests.rich import texts

KEPT = Path(__file__).with_name("told")
_FINGERPRINT = re.compile(r"\b[0-9a-f]{4}(-[0-9a-f]{4}){2}\b|\b[0-9a-f]{64}\b")
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
        found[file] = _FINGERPRINT.sub("FINGERPRINT", text.replace("\r", ""))
    return found


@pytest.mark.parametrize("file", NAMES)
def test_a_file_of_the_first(file: str) -> None:
    told.same(KEPT / f"{texts.FIRST}.txt", file, _files(texts.FIRST)[file])


@pytest.mark.parametrize("name", [name for name in texts.NAMES if name != texts.FIRST])
def test_what_the_others_tell_otherwise(name: str) -> None:
    """Of the file for programs the digest alone: what is in it stands in the sheets as well."""
    usual = _files(texts.FIRST)
    for file, text in _files(name).items():
        brief = file == JOB_JSON
        more = told.digest([text]) if brief else told.otherwise(text, usual[file])
        told.same(KEPT / f"{name}.txt", file, more)
