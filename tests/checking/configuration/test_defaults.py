"""What a configuration gives to a text that does not say: as if the text said it, but told."""

import json
from pathlib import Path

from jsonschema import Draft202012Validator

from hts.base.text import Source
from hts.checking.checker import Case, check_spec
from hts.checking.rules.examples import BUTT
from hts.generate import ROOT
from hts.job.compiler import compile_spec
from hts.job.compiler.fingerprint import fingerprint
from hts.job.compiler.units import units_of
from hts.job.outputs.job_json import write
from hts.language.model import Loader, Spec
from hts.language.model.defaults import NO_DEFAULTS, DefaultBook, Defaults
from tests.rows import each_row

BOOKS = (
    DefaultBook("asme-b31.3", "2018", "hts.toml:1:10"),
    DefaultBook("local-heating", None, "hts.toml:1:37"),
)
BY_DEFAULT = Defaults(BOOKS, "US")
WITHOUT = "".join(
    line for line in BUTT.splitlines(True) if "governed by" not in line and " show " not in line
)


def spec(text: str, defaults: Defaults = NO_DEFAULTS) -> Spec:
    return Spec(Source(text, "a.hts"), Loader(ROOT), defaults)


def digest(text: str, defaults: Defaults = NO_DEFAULTS) -> str:
    made = spec(text, defaults)
    return fingerprint(made, Case(made).authorities)


def test_the_example_names_its_books() -> None:
    assert "governed by  asme-b31.3 edition 2018, local-heating" in BUTT
    assert len(WITHOUT) < len(BUTT)


def test_a_text_without_books_stands_under_those_configured() -> None:
    made = Case(spec(WITHOUT, Defaults(BOOKS))).authorities
    written = Case(spec(BUTT)).authorities
    assert [(a.name, a.edition) for a in made] == [(a.name, a.edition) for a in written]
    assert [a.configured for a in made if a.is_book] == ["hts.toml:1:10", "hts.toml:1:37"]
    assert not any(a.configured for a in written)


def test_what_the_text_says_comes_first() -> None:
    other = Defaults((DefaultBook("asme-b31.1", "2020", "hts.toml:1:1"),), "US")
    made = spec(BUTT.replace("governed by", "show SI\n  governed by", 1), other)
    assert [b.book for b in made.file.job.governed_by] == ["asme-b31.3", "local-heating"]  # type: ignore[union-attr]
    assert units_of(made).systems == ("SI",)
    assert not made.file.job.configured  # type: ignore[union-attr]


def test_what_is_misread_counts_as_said() -> None:
    text = BUTT.replace("governed by  asme-b31.3 edition 2018, local-heating", "governed by  12", 1)
    assert not Case(spec(text, Defaults(BOOKS))).authorities


def test_nothing_is_missing_then() -> None:
    def missing(defaults: Defaults) -> list[str]:
        return [f.message for f in check_spec(spec(WITHOUT, defaults)) if "govern" in f.message]

    assert missing(NO_DEFAULTS) and not missing(Defaults(BOOKS))


def test_units_are_as_if_the_job_showed_them() -> None:
    shown = BUTT.replace("governed by", "show US\n  governed by", 1)
    assert units_of(spec(WITHOUT, BY_DEFAULT)) == units_of(spec(shown))
    rows = [
        [(limit.id, limit.minimum and limit.minimum.text) for limit in a.limits]
        for s in (spec(WITHOUT, BY_DEFAULT), spec(shown))
        for a in Case(s).authorities
        if a.is_book
    ]
    assert rows[: len(rows) // 2] == rows[len(rows) // 2 :]


def test_a_compiled_job_meets_the_schema_and_names_the_books() -> None:
    data = json.loads(write(compile_spec(spec(WITHOUT, BY_DEFAULT))))
    schema = json.loads(Path(ROOT, "grammar", "spec.schema.json").read_text("utf-8"))
    Draft202012Validator({**schema, "$ref": "#/$defs/job-file"}).validate(data)
    assert [a["name"] for a in data["authorities"] if a["kind"] == "book"] == [
        "asme-b31.3",
        "local-heating",
    ]
    assert data["units"] == ["US"]


@each_row(
    "other",
    [
        NO_DEFAULTS,
        Defaults(BOOKS),
        Defaults(BOOKS, "SI"),
        Defaults(BOOKS[:1], "US"),
        Defaults((BOOKS[0]._replace(edition="2016"), BOOKS[1]), "US"),
    ],
)
def test_the_fingerprint_covers_what_is_configured(other: Defaults) -> None:
    assert digest(WITHOUT, other) != digest(WITHOUT, BY_DEFAULT)


def test_the_fingerprint_does_not_hang_on_where_it_is_configured() -> None:
    moved = Defaults(tuple(b._replace(origin="pyproject.toml:9:9") for b in BOOKS), "US")
    assert digest(WITHOUT, moved) == digest(WITHOUT, BY_DEFAULT)
    # A text that says all of it itself does not depend on a configuration.
    says = BUTT.replace("governed by", "show SI\n  governed by", 1)
    assert digest(says, BY_DEFAULT) == digest(says)
