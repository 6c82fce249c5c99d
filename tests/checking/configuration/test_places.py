"""Places of keys in TOML: every one found where it is written."""

import tomllib
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from hts.checking.configuration.places import Path, places
from tests.rows import each_row

TEXT = (
    """\
# A remark with [brackets] and = signs
top = "a # no remark" # x = 1
"quoted key" = 'it"""
    + "'"
    + '''
"esc\\u0061ped" = 1

[tool.hts]
ignore = [ # first
  "M101", 'M102',
  """many
[lines] = 1""",
]
when = 1979-05-27 07:32:00
ratio = -1.5e+3
inline = { a = 1, b.c = [ { d = 2 }, [ ] ] }

[tool.hts.labels]
rows.x = 1

[[many]]
a = 1
[[many]]
a = 2
[many.inner]
b = 3
'''.replace("'it'''", "'it'")
)


def expected(data: Any, path: Path = ()) -> set[Path]:
    """Every way into parsed data."""
    found: set[Path] = set()
    items: Any = ()
    if isinstance(data, dict):
        items = data.items()
    elif isinstance(data, list):
        items = enumerate(data)
    for key, value in items:
        found |= {(*path, key), *expected(value, (*path, key))}
    return found


def test_every_way_into_the_data_has_a_place() -> None:
    assert set(places(TEXT)) == expected(tomllib.loads(TEXT))


@each_row(
    ("path", "begins"),
    [
        (("top",), "top ="),
        (("quoted key",), '"quoted key"'),
        (("escaped",), '"esc'),
        (("tool",), "tool.hts]\nignore"),
        (("tool", "hts"), "hts]\nignore"),
        (("tool", "hts", "ignore"), "ignore ="),
        (("tool", "hts", "ignore", 1), "'M102'"),
        (("tool", "hts", "ignore", 2), '"""many'),
        (("tool", "hts", "ratio"), "ratio ="),
        (("tool", "hts", "inline", "b", "c", 0, "d"), "d = 2"),
        (("tool", "hts", "labels", "rows", "x"), "x = 1"),
        (("many", 1, "a"), "a = 2"),
        (("many", 1, "inner", "b"), "b = 3"),
    ],
)
def test_a_place_is_where_the_key_begins(path: Path, begins: str) -> None:
    assert TEXT[places(TEXT)[path] :].startswith(begins)


KEYS = st.text("abc-_1", min_size=1, max_size=4) | st.text(
    st.characters(codec="utf-8", exclude_categories=("Cc", "Cs"), exclude_characters='"\\'),
    max_size=5,
)
LEAVES = (
    st.booleans()
    | st.integers(-(2**60), 2**60)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.dates()
    | st.datetimes()
    | st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs")), max_size=12)
)
VALUES = st.recursive(
    LEAVES,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=4),
    max_leaves=12,
)


def toml(value: Any, gap: str) -> str:
    """A value in TOML; ``gap`` stands where an array may have blanks, ends of line, remarks."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        escaped = value.replace("\\", "\\\\").replace('"', '\\"')
        return f'"{escaped}"'
    if isinstance(value, dict):
        inner = ", ".join(f"{key(k)} = {toml(v, '')}" for k, v in value.items())
        return "{ " + inner + " }"
    if isinstance(value, list):
        return "[" + gap + f",{gap}".join(toml(each, gap) for each in value) + gap + "]"
    return str(value)


def key(name: str) -> str:
    bare = name and all(c in "abc-_1" for c in name)
    return name if bare else f'"{name}"'


@given(
    st.dictionaries(KEYS, VALUES, max_size=4),
    st.sampled_from(["", " ", "\n", "\r\n  ", " # ] } = x\n"]),
    st.booleans(),
)
def test_places_of_generated_texts(data: dict[str, Any], gap: str, as_tables: bool) -> None:
    lines = []
    tables = {}
    for name, value in data.items():
        if as_tables and isinstance(value, dict):
            tables[name] = value
        else:
            lines.append(f"{key(name)}={toml(value, gap)}")
    for name, table in tables.items():
        lines += [f"[ {key(name)} ]", *(f"{key(k)} = {toml(v, gap)}" for k, v in table.items())]
    text = "\n".join(lines)
    assert tomllib.loads(text) == data
    found = places(text)
    assert set(found) == expected(data)
    for path, start in found.items():
        if isinstance(path[-1], str):
            assert text[start:].startswith(key(path[-1]))
