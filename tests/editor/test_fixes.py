"""What mends a finding is proved: the finding goes, none comes, no comment is lost."""

from __future__ import annotations

import random
import re
from pathlib import Path
from types import SimpleNamespace as Stub
from typing import Any

import pytest
from click.testing import CliRunner

import hts
from hts.base.findings import LAYOUT, OFFERED, Edit, Finding, Fix
from hts.base.text import Source
from hts.checking.checker.setting import PLAIN
from hts.checking.fixes import fixes_for
from hts.checking.rules.catalogue import rules
from hts.checking.rules.examples import changed
from hts.checking.rules.rule import Rule
from hts.cli.check import command
from hts.editor.proof import Bench, Refused, _beside, _new, laid_right
from hts.generate import ROOT
from hts.job.comparison.compare import compare
from hts.language.model import Spec
from tests.sampling import in_turn
from tests.texts import examples

BROKEN = sorted(Path(ROOT, "specs/broken").glob("*.hts"))
TODAY = "2026-11-20"

#: Rules of which the fix is refused in an example, because something else has to change with it.
NOT_ALONE = {
    "heated-band-too-narrow": "the thermocouple at its edge moves, too",
    "control-starts-too-late": "the rate is limited from a lower temperature",
    "control-ends-too-early": "the rate is limited down to a lower temperature",
}


def bench(text: str, today: str | None = TODAY, name: str = "weld.hts") -> Bench:
    return Bench(Spec(Source(text, name), examples()), PLAIN, today)


def tried(on: Bench, finding: Finding, fix: Fix) -> str:
    """Why a fix is refused, "" where it is proved."""
    try:
        on.prove(finding, fix)
    except Refused as refused:
        return str(refused)
    return ""


#: The rules that have a fix; `-m long` looks through all of them.
MENDED = [
    "soak-band-too-narrow",
    "heated-band-too-narrow",
    "gradient-band-too-narrow",
    "insulation-too-thin",
    "legs-too-far-apart",
    "attachment-energy-too-high",
    "hold-temperature-outside-limits",
    "hold-too-short",
    "hold-too-long",
    "heating-too-fast",
    "cooling-too-fast",
    "cooling-too-slow",
    "unlimited-rate",
    "control-starts-too-late",
    "control-ends-too-early",
    "spread-too-wide",
    "excursion-too-long",
    "delay-too-long",
    "charge-too-hot",
    "margin-too-small",
    "thickness-differs",
    "short-furnace-overlap",
    "treated-before-transformed",
    "preheat-too-low",
    "interpass-too-high",
    "preheat-too-hot",
    "interpass-too-low",
]


def test_a_rule_with_a_fix_mends_its_own_bad_examples() -> None:
    by_name = {rule.kind.name: rule for rule in rules()}
    for name in MENDED:
        assert _mends_its_examples(by_name[name])


@pytest.mark.parametrize("part", in_turn(range(4), 4))
def test_no_other_rule_has_a_fix(part: int) -> None:
    for rule in rules()[part::4]:
        assert _mends_its_examples(rule) == (rule.kind.name in MENDED), rule.kind.name


def _mends_its_examples(rule: Rule) -> bool:
    """Whether the rule has a fix; each of its examples is mended by one then."""
    has_one = False
    for bad in rule.bad:
        on = bench(changed(bad.base, bad.changes), bad.today)
        for finding in on.own():
            offered = fixes_for(finding) if finding.kind is rule.kind else ()
            why = [tried(on, finding, fix) for fix in offered]
            has_one = has_one or bool(offered)
            if all(why) and offered and rule.kind.name not in NOT_ALONE:
                pytest.fail(f"{rule.kind.name}: {finding.message}: {why}")
    return has_one


#: What is offered for the broken examples, by name of the file.
OFFERS = {
    "abbreviated-clause": "write `channel 5`",
    "choice-in-quotes": "write `horizontal`",
    "clock-position-impossible": "write `1:00`",
    "decimal-comma": "write 25.4",
    "material-unknown": "write `carbon-pipe`",
    "range-reversed": "write `700 .. 730 degC`",
    "unit-unknown": "write `degC/h`",
    "unknown-joint": "write `W10`",
    "waiver-of-nothing": "remove the waiver",
    "thickness-understated": "write `by rule`",
    "hold-too-cold": "write `675 .. 730 degC`",
}


#: Facts of the site are words for a person, never an edit.
FACTS_OF_THE_SITE = (
    "bore-full",
    "calibration-expired",
    "attachment-untested",
    "approved-by-author",
)


def proved_for(paths: list[Path]) -> dict[str, list[str]]:
    """The titles of the fixes that are proved, by name of the file."""
    proved: dict[str, list[str]] = {}
    for path in paths:
        on = Bench(hts.load(path), PLAIN, TODAY)
        for finding, fix in on.offers():
            if not tried(on, finding, fix):
                proved.setdefault(path.stem, []).append(fix.title)
    return proved


def test_the_broken_examples_are_mended_where_that_can_be_proved() -> None:
    wanted = {*OFFERS, *FACTS_OF_THE_SITE, "width-without-side", "edition-missing"}
    proved = proved_for([path for path in BROKEN if path.stem in wanted])
    assert {stem: proved.get(stem, [""])[0] for stem in OFFERS} == OFFERS
    # Two answers are possible, and neither is preferred; so it is with the editions of a book.
    assert proved["width-without-side"] == ["write `total`", "write `each side`"]
    assert len(proved["edition-missing"]) >= 3
    assert not proved.keys() & set(FACTS_OF_THE_SITE)


@pytest.mark.long
def test_of_all_broken_examples_so_many_are_mended() -> None:
    assert sum(map(len, proved_for(BROKEN).values())) >= 35


GOOD = Path(ROOT, "specs/carbon-steel-butt.hts")


def disordered(text: str, chance: random.Random) -> tuple[str, str]:
    """A text with one slip of its layout that an error of form comes of, and which slip it is."""
    slip = chance.choice(["brace", "break", "twice"])
    if slip == "brace":
        at = chance.choice([m.start() for m in re.finditer(r" \{\n", text)])
        return text[:at] + "\n{" + text[at + 2 :], slip
    if slip == "break":
        at = chance.choice([m.start() for m in re.finditer(r"(?<=\})\n+[a-z]", text)])
        end = at + len(re.match(r"\n+", text[at:])[0])  # type: ignore[index]
        return text[:at] + " " + text[end:], slip
    lines = text.splitlines(keepends=True)
    wanted = r"    (soak|heated|gradient) band"
    at = chance.choice([n for n, line in enumerate(lines) if re.match(wanted, line)])
    return "".join([*lines[: at + 1], lines[at], *lines[at + 1 :]]), slip


def layout_mended(count: int, seed: int) -> None:
    chance = random.Random(seed)
    good = hts.load(GOOD)
    seen = set()
    for _ in range(count):
        text, slip = disordered(good.source.text, chance)
        spec = Spec(Source(text, good.source.name, good.source.path), good.loader)
        mended, number = laid_right(spec, PLAIN, TODAY)
        assert number == 1, (slip, text)
        again = Spec(Source(mended, good.source.name, good.source.path), good.loader)
        assert compare(good, again).changes == (), slip
        assert mended.count("#") == text.count("#")
        assert laid_right(again, PLAIN, TODAY) == (mended, 0)
        seen.add(slip)
    assert seen == {"brace", "break", "twice"}


def test_mending_the_layout_gives_the_meaning_back() -> None:
    layout_mended(8, 1)


@pytest.mark.parametrize("seed", in_turn(range(2, 6), 4))
def test_mending_the_layout_of_many_texts(seed: int) -> None:
    layout_mended(100, seed)


BASE = "spec 1\n\nprocedure P-1 {\n  hold time at least 1 h\n}\n"


def test_no_comment_is_lost() -> None:
    """A brace goes before the comment of its entry; a line with a comment of its own stays."""
    text = BASE.replace("P-1 {\n", "P-1  # of the owner\n\n# and more\n{\n")
    spec = Spec(Source(text, "p.hts"), examples())
    mended, count = laid_right(spec, PLAIN, None)
    assert count == 1
    assert mended == BASE.replace("P-1 {\n", "P-1 {  # of the owner\n\n# and more\n")


def test_what_was_signed_is_written_by_people_alone() -> None:
    path = Path(ROOT, "specs/broken/hidden-character.hts")
    on = Bench(hts.load(path), PLAIN, TODAY)
    (finding, fix), *_ = on.offers()
    assert fix.kind == OFFERED
    assert "by people alone" in tried(on, finding, fix)


def test_a_layout_fix_that_would_change_the_meaning_is_refused() -> None:
    on = Bench(hts.load(Path(ROOT, "specs/broken/unit-unknown.hts")), PLAIN, TODAY)
    (finding, fix), *_ = on.offers()
    claimed = Fix(fix.title, LAYOUT, fix.edits)
    assert "the meaning would change: rate added" in tried(on, finding, claimed)


# On the command line ---------------------------------------------------------------------------


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / ".git").mkdir()
    (tmp_path / "hts.toml").write_text(f'today = "{TODAY}"\n')
    return tmp_path


def run(*arguments: str) -> tuple[int, str]:
    result = CliRunner().invoke(command, [*arguments, "--no-cache"])
    return result.exit_code, result.output


def test_fix_mends_the_layout_and_keeps_marks_and_line_ends(folder: Path) -> None:
    path = folder / "p.hts"
    text = "\ufeff" + BASE.replace(" {\n", "\n{\n").replace("\n", "\r\n")
    path.write_bytes(text.encode())
    code, output = run("--fix", str(path))
    assert code == 0, output
    assert path.read_bytes() == ("\ufeff" + BASE.replace("\n", "\r\n")).encode()
    assert "1 of the layout, the meaning is the same" in output
    assert run("--fix", str(path)) == (0, "1 file checked: no findings\n")


def test_an_offer_is_shown_before_it_is_written(folder: Path) -> None:
    path = folder / "weld.hts"
    wrong = Path(ROOT, "specs/broken/unit-unknown.hts").read_text("utf-8")
    path.write_text(wrong, "utf-8")
    name = "Q102@stress-relief/cool"
    code, output = run("--offer", "LIST", str(path))
    assert (code, output) == (0, f"{name}  write `degC/h`: 'C/hr' is not a unit\n")
    code, output = run("--offer", name, str(path))
    assert code == 0
    assert "+  cool to 300 degC      at most 200 degC/h\n" in output
    assert "re-approve rate added" in output
    assert "nothing is written" in output
    assert path.read_text("utf-8") == wrong
    assert run("--offer", name, "--fix", str(path))[0] == 0
    assert path.read_text("utf-8") == wrong.replace("200 C/hr", "200 degC/h")
    code, output = run("--offer", name, str(path))
    assert code == 1
    assert f"there is no offer {name}; there are: none" in output


def test_nothing_is_written_through_a_link_that_leads_out(
    folder: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    outside = tmp_path_factory.mktemp("outside") / "p.hts"
    outside.write_text(BASE.replace(" {\n", "\n{\n"))
    link = folder / "p.hts"
    link.symlink_to(outside)
    before = outside.read_text()
    run("--fix", str(folder))
    assert outside.read_text() == before


def test_standard_input_and_folders_are_told_apart(folder: Path) -> None:
    assert "standard input cannot be mended" in run("--fix", "-")[1]
    assert "--offer is about one file" in run("--offer", "LIST", str(folder))[1]


def test_what_a_fix_brings_in() -> None:
    """Findings that were there before are not new, as often as they were there."""

    def found(words: str) -> Any:
        return [Stub(kind=Stub(code=c), address="W1", message=f"about {c}") for c in words]

    for before, after, new in (("aab", "aab", ""), ("aa", "aaab", "ab"), ("a", "aa", "a"),
                               ("ab", "", ""), ("", "ab", "ab")):  # fmt: skip
        assert [each.kind.code for each in _new(found(before), found(after))] == list(new)


def test_findings_beside_what_was_edited() -> None:
    """On a line that was edited, counted in the text with the fix; edits before it move it."""
    # Two lines more are written before `three`, and one word in it.
    edits = [Edit(0, 0, "a\nb\n"), Edit(8, 13, "3")]
    after = Source("a\nb\none\ntwo\n3\nfour\n", "x.hts")
    fix: Any = Stub(edits=edits)
    found = [
        number
        for number in range(1, 7)
        if _beside(Stub(source=after, at=Stub(span=after.span(_start(after, number), 0))), fix)  # type: ignore[arg-type]
    ]
    assert found == [1, 2, 3, 5]


def _start(source: Source, number: int) -> int:
    return sum(len(line) + 1 for line in source.text.split("\n")[: number - 1])
