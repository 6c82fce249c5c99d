"""What can be set, where it is looked for, and what is said about a mistake."""

import os
import pickle
import subprocess
import sys
from pathlib import Path

import pytest

from hts.checking.configuration import (
    Configuration,
    ConfigurationError,
    allowed,
    load,
    loader,
)
from hts.checking.configuration.keys import KEYS, SHEETS
from hts.generate import ROOT
from tests.checking.configuration.written import put


def error(folder: Path, text: str, name: str = "hts.toml") -> ConfigurationError:
    put(folder, text, name)
    with pytest.raises(ConfigurationError) as caught:
        load(str(folder))
    return caught.value


# Where it is looked for.


def test_nothing_is_set_where_there_is_no_file(root: Path) -> None:
    assert load(str(root / "a")) == Configuration()
    assert load(str(root / "a")).setting.digest == ""


def test_the_nearest_file_counts_and_no_other(root: Path) -> None:
    put(root, 'paper.sheet = "Letter"\npaper.units = "US"\n')
    put(root / "a" / "b", 'paper.units = "SI and US"\n')
    far, near = load(str(root / "a" / "spec.hts")), load(str(root / "a" / "b" / "spec.hts"))
    assert (far.sheet, far.units) == ("Letter", "US")
    assert (near.sheet, near.units) == ("A4", "SI and US")
    assert near.origin == {"paper.units": "a/b/hts.toml:1:7"}


def test_nothing_above_the_repository_counts(root: Path) -> None:
    put(root, 'paper.units = "US"\n')
    inner = root / "a"
    (inner / ".git").mkdir()
    assert load(str(inner / "b")) == Configuration()


def test_a_shared_file_counts_where_it_has_the_table(root: Path) -> None:
    put(root, '[tool.hts]\npaper.units = "US"\n[tool.other]\nx = 1\n', "pyproject.toml")
    put(root / "a", "[tool.other]\nx = [", "pyproject.toml")  # not even read as TOML
    made = load(str(root / "a" / "b"))
    assert made.units == "US"
    assert made.origin == {"paper.units": "pyproject.toml:2:7"}
    put(root / "a", "")
    assert load(str(root / "a" / "b")).units is None


def test_an_own_file_comes_before_a_shared_one(root: Path) -> None:
    put(root, '[tool.hts]\npaper.units = "US"\n', "pyproject.toml")
    put(root, 'paper.sheet = "Letter"\n')
    assert load(str(root)).units is None


def test_a_named_file_counts_instead(root: Path) -> None:
    put(root, 'paper.units = "US"\n')
    put(root / "a", 'paper.units = "SI"\n', "other.toml")
    named = load(str(root), str(root / "a" / "other.toml"))
    assert named.units == "SI"
    assert loader(str(root / "a" / "other.toml"))(str(root / "x.hts")) == named
    with pytest.raises(ConfigurationError, match="no such file"):
        load(str(root), str(root / "missing.toml"))
    put(root, "[project]\n", "pyproject.toml")
    with pytest.raises(ConfigurationError, match=r"no table \[tool\]"):
        load(str(root), str(root / "pyproject.toml"))


def test_a_run_reads_a_file_once(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    put(root, 'paper.units = "US"\n')
    reads: list[str] = []
    from hts.checking.configuration import find

    kept = find.read_text
    monkeypatch.setattr(find, "read_text", lambda path: (reads.append(path), kept(path))[1])
    of = loader()
    assert {of(str(root / "a" / f"{n}.hts")).units for n in range(5)} == {"US"}
    assert len(reads) == 1


def test_who_sets_nothing_does_not_pay_for_it(root: Path) -> None:
    (root / "a.hts").write_text("spec 1\n")
    put(root, "[tool.other]\n", "pyproject.toml")
    program = (
        "import sys\n"
        "from hts.cli.main import main\n"
        "sys.argv = ['hts', 'check', 'a.hts']\n"
        "try:\n    main()\nexcept SystemExit: pass\n"
        "print(*sys.modules)\n"
    )

    def modules() -> list[str]:
        run = subprocess.run(
            [sys.executable, "-c", program],
            capture_output=True,
            text=True,
            cwd=root,
            env={**os.environ, "PYTHONPATH": ROOT},
            check=True,
        )
        return run.stdout.splitlines()[-1].split()

    read = {"tomllib", "hts.checking.configuration.read", "hts.checking.configuration.baseline"}
    assert not read & set(modules())
    put(root, "[tool.hts]\n", "pyproject.toml")
    assert "hts.checking.configuration.read" in modules()


# What is said about a mistake: place, cause, remedy.


@pytest.mark.parametrize(
    ("text", "place", "cause", "remedy"),
    [
        ("ignroe = []\n", "1:1", "no key 'ignroe'", "did you mean ignore?"),
        ("# x\n[paper]\nsheets = 1\n", "3:1", "no key 'paper.sheets'", "did you mean paper.sheet?"),
        ("qqqqqq = 1\n", "1:1", "no key 'qqqqqq'", "there are: select"),
        ("paper = 1\n", "1:1", "`paper` is a table", "write [paper]"),
        ("severity = 1\n", "1:1", "`severity` is a table", "write [severity]"),
        ("ignore = 'M'\n", "1:1", "`ignore` is a list", "write"),
        ("ignore = [\n  'M101',\n  7]\n", "3:3", "7 is not a word", "quotes"),
        ("ignore = ['M101', 'M101']\n", "1:19", "is listed twice", "remove one"),
        ("ignore = ['zone-gpa']\n", "1:11", "no rule 'zone-gpa'", "did you mean zone-gap?"),
        ("select = ['X9']\n", "1:11", "no rule 'X9'", "`hts rules` lists them"),
        ("ignore = ['W103']\n", "1:11", "W103 missing-entry cannot be ignored", "guessed"),
        ("[severity]\nW103 = 'advice'\n", "2:1", "cannot be set to advice: error is", "guessed"),
        ("[severity]\nzone-gap = 'off'\n", "2:1", "a severity cannot be 'off'", "`ignore`"),
        ("[severity]\nzone-gap = 'error'\nZ113 = 'error'\n", "3:1", "set twice", "keep one"),
        ("books = ['asme-b31.3 2018']\n", "1:10", "is not a rule book", "edition 2018"),
        ("books = ['asme-b313 edition 2018']\n", "1:10", "no book", "did you mean asme-b31.3?"),
        ("books = ['asme-b31.3']\n", "1:10", "needs an edition", "write, for example"),
        ("books = ['asme-b31.3 edition 1999']\n", "1:10", "no edition 1999", "edition 20"),
        ("books = ['local-heating', 'local-heating']\n", "1:27", "twice", "remove one"),
        ("rule-packs = ['a/b']\n", "1:15", "is not the name of a rule pack", "letters"),
        ("paper.units = 'metric'\n", "1:7", "cannot be 'metric'", "SI, US, SI and US"),
        ("paper.sheet = 'A3'\n", "1:7", "cannot be 'A3'", "A4, Letter"),
        ("labels.rows = 0\n", "1:8", "cannot be 0", "from 1 to 100"),
        ("labels.rows = true\n", "1:8", "cannot be True", "from 1 to 100"),
        ("labels.left = 5\n", "1:8", "cannot be 5", "with its unit"),
        ("labels.left = '5'\n", "1:8", "unit", "12.5 mm"),
        ("labels.left = '5 degC'\n", "1:8", "degC", "12.5 mm"),
        ("labels.left = '-5 mm'\n", "1:8", "cannot be '-5 mm'", "from 0 mm"),
        ("a = \n", "1:5", "this is not TOML", "toml.io"),
        ("a = [1,\n", "2:1", "this is not TOML", "toml.io"),
        ("a = 1\na = 2\n", "2:6", "this is not TOML", "toml.io"),
        ("a = " + "9" * 5000, "1:1", "this is not TOML: Exceeds the limit", "toml.io"),
    ],
)
def test_a_mistake_is_told_with_its_place(
    root: Path, text: str, place: str, cause: str, remedy: str
) -> None:
    told = error(root, text)
    assert told.place == f"hts.toml:{place}"
    assert cause in told.cause
    assert remedy in told.remedy


def test_a_family_of_which_nothing_can_be_set_aside(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from hts.checking.checker import all_kinds

    safety = tuple(kind for kind in all_kinds.all_kinds() if kind.code == "W103")
    monkeypatch.setattr(all_kinds, "all_kinds", lambda: safety)
    for text in ("ignore = ['W']\n", "severity.W = 'advice'\n"):
        told = error(root, text)
        assert "no rule of family W can be" in told.cause and told.remedy == "remove it"


def test_a_mistake_in_a_shared_file(root: Path) -> None:
    told = error(root, "[project]\nname = 'x'\n[tool.hts.paper]\nsheet = 'A3'\n", "pyproject.toml")
    assert told.place == "pyproject.toml:4:1"


@pytest.mark.parametrize("text", ["a = " + "[" * 5000 + "]" * 5000, "a=" + "{a=" * 3000 + "1"])
def test_nesting_without_end(root: Path, text: str) -> None:
    assert "nested too deeply" in error(root, text).cause


def test_a_file_that_is_no_text(root: Path) -> None:
    (root / "hts.toml").write_bytes(b"\xff\xfe")
    with pytest.raises(ConfigurationError, match="not UTF-8"):
        load(str(root))


def test_a_byte_order_mark_and_other_line_ends_move_no_place(root: Path) -> None:
    told = error(root, "\ufeff# x\r\nignroe = []\r\n")
    assert told.place == "hts.toml:2:1"


# What the values do.


def test_values(root: Path) -> None:
    put(
        root,
        "books = ['asme-b31.3 edition 2018', 'local-heating']\n"
        "ignore = ['Z', 'unused-waiver']\n"
        "rule-packs = []\n"
        "[severity]\nC = 'warning'\nC101 = 'error'\nzone-gap = 'error'\n"
        "[labels]\nrows = 7\nwidth = '2 in'\nheight = 'as fits'\ngap-down = '0.5 mm'\n",
    )
    made = load(str(root))
    assert [(b.book, b.edition, b.origin) for b in made.books] == [
        ("asme-b31.3", "2018", "hts.toml:1:10"),
        ("local-heating", None, "hts.toml:1:37"),
    ]
    assert {"Z113", "V102"} <= made.ignored and all(c[0] in "ZV" for c in made.ignored)
    severities = dict(made.severities)
    assert severities["C101"] == severities["Z113"] == "error"
    assert severities["C102"] == "warning"
    # 1 in = 25.4 mm exactly (ISO 80000-3).
    assert made.labels == {"rows": 7, "width": 50.8, "height": 0.0, "gap_down": 0.5}
    assert made.origin["severity.zone-gap"] == "hts.toml:7:1"


def test_a_family_passes_over_what_cannot_be_set_aside(root: Path) -> None:
    from hts.checking.checker.all_kinds import all_kinds

    put(root, "ignore = ['Z']\n[severity]\nY = 'advice'\n")
    made = load(str(root))
    floors = {kind.code for kind in all_kinds() if kind.lowest is not None}
    free = {kind.code for kind in all_kinds() if kind.lowest is None}
    assert made.ignored == {code for code in free if code.startswith("Z")}
    assert not floors & made.ignored
    assert {code for code, _ in made.severities} == {c for c in free if c.startswith("Y")}


def test_what_is_selected_and_what_never_goes(root: Path) -> None:
    from hts.checking.checker.all_kinds import all_kinds

    put(root, "select = ['Z', 'unused-waiver']\nignore = ['zone-gap']\n")
    ignored = load(str(root)).ignored
    for kind in all_kinds():
        counts = kind.lowest is not None or kind.code[0] == "Z" or kind.code == "V102"
        assert (kind.code in ignored) == (not counts or kind.name == "zone-gap")


def test_the_digest_changes_with_what_a_check_depends_on(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def digest(text: str) -> str:
        put(root, text)
        return load(str(root)).digest

    assert digest("") == digest("labels.rows = 3\npaper.sheet = 'Letter'\n") == ""
    monkeypatch.setattr(allowed, "_named", {"tern-island"})
    texts = [
        "ignore = ['zone-gap']",
        "ignore = ['Z']",
        "[severity]\nzone-gap = 'error'",
        "[severity]\nzone-gap = 'advice'",
        "books = ['local-heating']",
        "books = ['asme-b31.3 edition 2018']",
        "books = ['asme-b31.3 edition 2016']",
        "rule-packs = ['tern-island']",
        "paper.units = 'US'",
    ]
    digests = [digest(text) for text in texts]
    assert len(set(digests)) == len(texts)
    assert digest("\n# moved\nignore = ['Z113']") == digests[0]


def test_every_sheet_and_every_measure_of_a_grid_can_be_set() -> None:
    from hts.paper.labels import Grid
    from hts.paper.sheet import SIZES

    assert set(SHEETS) == set(SIZES)
    # Where a used sheet is begun is said each time.
    fields = {name.replace("_", "-") for name in Grid._fields} - {"start"}
    assert {name for name in KEYS if name.startswith("labels.")} == {
        f"labels.{field}" for field in fields
    }


@pytest.mark.parametrize("said", ["2026-11-20", '"2026-11-20"', '"20261120"'])
def test_a_day_is_a_date_of_toml_or_in_quotes(root: Path, said: str) -> None:
    put(root, f"today = {said}\n")
    assert load(str(root)).today == "2026-11-20"


@pytest.mark.parametrize("said", ["2026-11-20T08:00:00", '"20.11.2026"', "20261120", "true"])
def test_no_other_day(root: Path, said: str) -> None:
    wrong = error(root, f"today = {said}\n")
    assert "`today` cannot be" in str(wrong) and "hts.toml:1:1" in str(wrong)


@pytest.mark.parametrize(
    ("own", "packs"),
    [
        ("", frozenset()),
        ('allow-packs = ["tern", "other"]\n', {"tern", "other"}),
        ('allow-packs = "tern"\n', None),
        ('allow-packs = ["tern", 5]\n', None),
        # Anything beside it: what is not read here would seem to count.
        ('allow-packs = ["tern"]\nignore = ["zone-gap"]\n', None),
        ('ignore = ["zone-gap"]\n', None),
        ("allow-packs = [", None),
    ],
)
def test_packs_the_user_allows(
    root: Path,
    tmp_path_factory: pytest.TempPathFactory,
    monkeypatch: pytest.MonkeyPatch,
    own: str,
    packs: set[str] | None,
) -> None:
    home = tmp_path_factory.mktemp("home")
    put(home, own)
    monkeypatch.setattr(allowed, "users_file", lambda: str(home / "hts.toml"))
    if packs is None:
        with pytest.raises(ConfigurationError) as caught:
            allowed.allowed(str(root))
        assert str(home / "hts.toml") in str(caught.value)
    else:
        assert allowed.allowed(str(root)) == packs
        assert allowed.forbidden(["tern", "stranger"], str(root)) == [
            pack for pack in ("tern", "stranger") if pack not in packs
        ]
    # Whoever writes in the repository writes no consent.
    put(root, 'allow-packs = ["tern"]\n')
    monkeypatch.setattr(allowed, "users_file", lambda: str(root / "hts.toml"))
    assert allowed.allowed(str(root)) == frozenset()


def test_no_pack_runs_within(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(allowed, "_without", [])
    with allowed.without_packs():
        assert allowed.none_runs()
    assert not allowed.none_runs()
    allowed.run_none()
    with allowed.without_packs():
        pass
    assert allowed.none_runs()


def test_a_setting_travels_to_processes(root: Path) -> None:
    put(root, "ignore = ['Z']\nbooks = ['local-heating']\n[severity]\nY = 'advice'\n")
    setting = load(str(root)).setting
    again = pickle.loads(pickle.dumps(setting))
    assert again == setting and hash(again) == hash(setting)


def test_a_key_of_thousands_of_parts_is_not_read(tmp_path: Path) -> None:
    (tmp_path / "hts.toml").write_text(".".join("a" * 20_000) + " = 1\n", "utf-8")
    with pytest.raises(ConfigurationError, match="more than 10,000 dots"):
        load(str(tmp_path))
