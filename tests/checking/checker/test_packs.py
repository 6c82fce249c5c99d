"""Rules of others: off until named, and told as theirs when they do not work."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from itertools import count
from pathlib import Path

import pytest

from hts.checking.checker import packs
from hts.checking.checker.check_paths import check_paths
from hts.checking.checker.packs import PackError, checks, kinds
from hts.checking.checker.run import check_spec
from hts.checking.checker.setting import Setting
from hts.checking.report import json_report, terminal
from hts.checking.rules.examples import PREHEAT
from hts.generate import ROOT
from tests.texts import spec_of

RULES = """\
from hts.plugin import Bad, Rule

RULE = Rule(
    "TI001",
    "title-without-unit",
    "warning",
    summary="A job whose title does not say its unit.",
    why="The store on Tern Island files papers by unit.",
    fix="Begin the title with the unit.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("header butt", "butt"),), at="butt"),),
)


@RULE.for_spec
def check(case):
    job = case.spec.file.job
    if job is not None and "unit" not in job.name:
        case.add(RULE.found("the title names no unit", job.place("name"), address=job.number))


RULES = [RULE]
"""

Install = Callable[..., Setting]
#: Modules are imported once, so each has a name of its own.
NUMBERS = count()


@pytest.fixture
def install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Install:
    """Puts a distribution with a pack onto the path, as an installer would."""
    # Python Packaging User Guide, "Entry points specification" and "Recording installed projects".
    packs._rules.cache_clear()
    checks.cache_clear()

    def put(source: str, pack: str = "tern", target: str = "{module}:RULES") -> Setting:
        module = f"{pack}_rules_{next(NUMBERS)}"
        (tmp_path / f"{module}.py").write_text(source)
        about = tmp_path / f"{module}-1.0.dist-info"
        about.mkdir()
        (about / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {module}\nVersion: 1.0\n")
        point = f"{pack} = {target.format(module=module)}"
        (about / "entry_points.txt").write_text(f"[hts.rules]\n{point}\n")
        monkeypatch.syspath_prepend(str(tmp_path))
        return Setting(rule_packs=(pack,), digest=pack)

    return put


@pytest.fixture
def spec(tmp_path: Path) -> str:
    path = tmp_path / "specs" / "a.hts"
    path.parent.mkdir()
    path.write_text(PREHEAT)
    return str(path)


def test_a_named_pack_finds_what_it_looks_for(install: Install, spec: str) -> None:
    setting = install(RULES)
    assert check_paths([spec]).findings == []
    (finding,) = check_paths([spec], settings=lambda path: setting).findings
    assert (finding.kind.code, finding.severity) == ("TI001", "warning")
    assert "TI001" in {kind.code for kind in kinds(setting.rule_packs)}
    assert "TI001" not in {kind.code for kind in kinds()}


def test_its_findings_can_be_waived(install: Install, spec: str) -> None:
    setting = install(RULES)
    waiver = (
        '\nwaive title-without-unit on HT-0002 {\n  reason "Not filed"\n'
        '  by "Welding engineer"\n  until 2027-01-31\n}\n'
    )
    (finding,) = check_paths([spec], settings=lambda path: setting).findings
    Path(spec).write_text(PREHEAT + waiver.replace("HT-0002", finding.address))
    assert check_paths([spec], settings=lambda path: setting).findings == []
    assert [f.kind.name for f in check_paths([spec]).findings] == ["waiver-of-unknown-rule"]


def test_every_process_has_it(install: Install, spec: str) -> None:
    setting = install(RULES)
    for number in range(8):
        Path(spec).with_name(f"b{number}.hts").write_text(PREHEAT)
    folder = str(Path(spec).parent)
    one, two = (check_paths([folder], jobs=jobs, settings=lambda path: setting) for jobs in (1, 2))
    assert len(one.findings) == 9
    for report in (terminal, json_report):
        assert report.write(one, colour=False) == report.write(two, colour=False)


@pytest.mark.parametrize(
    ("source", "said"),
    [
        ("raise RuntimeError('no licence')", "tern cannot be imported: RuntimeError: no licence"),
        ("import nowhere_at_all", "cannot be imported: ModuleNotFoundError"),
        ("", "cannot be imported: AttributeError"),
        ("RULES = 5", "does not give a list of rules but 5"),
        ("RULES = ['TI001']", "holds 'TI001', which is not a rule"),
        (
            RULES.replace("@RULE.for_spec\n", ""),
            "TI001 title-without-unit: there is no function for it",
        ),
        (RULES.replace("TI001", "T001"), "T001 title-without-unit: a code is two to eight"),
        (RULES.replace("title-without-unit", "Title"), "TI001 Title: a code is two to eight"),
        (RULES.replace("title-without-unit", "zone-gap"), "tern: hts has a rule zone-gap, too"),
        (RULES.replace("[RULE]", "[RULE, RULE]"), "tern: rule pack tern has a rule TI001, too"),
        (
            "import sys\nsys.exit(0)",
            r"tern cannot be imported: SystemExit: 0 \(tern_rules_",
        ),
        (
            RULES.replace('bad=(Bad((("header butt", "butt"),), at="butt"),)', "bad=()"),
            "a bad example at least",
        ),
        (RULES.replace('"warning"', '"error"'), "rests on practice alone warns"),
        (RULES.replace('basis="practice"', 'basis="hearsay"'), "names its source, and its basis"),
        (RULES.replace('"practice"', '"published"'), "what has no source is of basis practice"),
        (RULES.replace("Begin the title with the unit.", ""), "summary, why and fix"),
    ],
)
@pytest.mark.parametrize("jobs", [1, 2])
def test_a_pack_that_does_not_work(
    install: Install, spec: str, source: str, said: str, jobs: int
) -> None:
    setting = install(source)
    with pytest.raises(PackError, match=said):
        check_paths([spec], jobs=jobs, settings=lambda path: setting)


@pytest.mark.parametrize("raised", ["1 / 0", "sys.exit(0)", "exec('raise GeneratorExit')"])
@pytest.mark.parametrize("jobs", [1, 2])
def test_a_rule_that_fails_leaves_the_rest_running(
    install: Install, spec: str, raised: str, jobs: int
) -> None:
    """The rule, the line of the pack and the text are named; no other finding is lost."""
    second = RULES[RULES.index("RULE =") : RULES.index("RULES =")].replace("RULE", "OTHER")
    second = second.replace("TI001", "TI002").replace("title-without-unit", "title-short")
    failing = RULES.replace("    job = case.spec.file.job", f"    job = {raised}", 1)
    both = failing.replace("RULES = [RULE]", f"{second}\nRULES = [RULE, OTHER]")
    setting = install(f"import sys\n{both}")
    Path(spec).with_name("b.hts").write_text(PREHEAT)
    folder = str(Path(spec).parent)
    results = check_paths([folder], jobs=jobs, settings=lambda path: setting)
    assert [f.kind.code for f in results.findings] == ["TI002", "TI002"]
    assert results.checked == ["a.hts", "b.hts"] and results.exit_code == 2
    line = both.split("\n").index(f"    job = {raised}") + 2
    for name, failure in zip(("a.hts", "b.hts"), results.failures, strict=True):
        assert failure.name == name
        assert failure.reason.startswith("rule title-without-unit (TI001) of rule pack tern failed")
        assert f", line {line})" in failure.reason


def test_whoever_asks_for_one_text_is_told_that_a_rule_failed(install: Install, spec: str) -> None:
    setting = install(RULES.replace("    job = case.spec.file.job", "    job = 1 / 0"))
    with pytest.raises(PackError, match=r"title-without-unit .* ZeroDivisionError"):
        check_spec(spec_of(PREHEAT), setting=setting)


def test_an_interruption_is_none_of_the_rules(install: Install, spec: str) -> None:
    broken = RULES.replace("    job = case.spec.file.job", "    raise KeyboardInterrupt")
    setting = install(broken)
    with pytest.raises(KeyboardInterrupt):
        check_paths([spec], settings=lambda path: setting)


def test_what_is_kept_goes_with_the_version_of_the_pack(
    install: Install, spec: str, tmp_path: Path
) -> None:
    setting = install(RULES)
    kept = str(tmp_path / "kept")
    one, two = (
        check_paths([spec], settings=lambda path: setting, cache=kept).findings for _ in range(2)
    )
    assert [f.kind.code for f in one] == [f.kind.code for f in two] == ["TI001"]
    first = packs.stamp(setting.rule_packs)
    assert first and packs.stamp(setting.rule_packs) == first
    (file,) = (p for p in tmp_path.glob("tern_rules_*.py"))
    file.write_text(RULES + "\n# another version\n")
    assert packs.stamp(setting.rule_packs) != first
    assert packs.stamp(("nowhere",)) is None


def test_two_packs_with_one_code(install: Install, spec: str) -> None:
    install(RULES)
    install(RULES, pack="other")
    with pytest.raises(PackError, match="other: rule pack tern has a rule TI001, too"):
        kinds(("tern", "other"))


def test_a_pack_nobody_installed(install: Install, spec: str) -> None:
    with pytest.raises(PackError, match=r"no rule pack nowhere; (none is installed|installed: )"):
        kinds(("nowhere",))


def test_none_is_looked_for_unless_named(spec: str) -> None:
    program = (
        "import sys\nfrom hts.checking.checker.check_paths import check_paths\n"
        f"check_paths([{spec!r}])\nprint('importlib.metadata' in sys.modules)"
    )
    said = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    assert said.stdout == "False\n"


@pytest.mark.parametrize(
    ("source", "code", "said"),
    [
        (RULES, 1, "title-without-unit (TI001)"),
        ("raise RuntimeError('no licence')", 2, "tern cannot be imported: RuntimeError"),
        (
            RULES.replace("= case.spec.file.job", "= 1 / 0"),
            2,
            "ZeroDivisionError: division by zero",
        ),
    ],
)
def test_as_a_user_sees_it(
    install: Install, spec: str, tmp_path: Path, source: str, code: int, said: str
) -> None:
    install(source)
    Path(spec).with_name("hts.toml").write_text('rule-packs = ["tern"]\n')
    run = subprocess.run(
        [sys.executable, "-m", "hts", "check", "--allow-pack", "tern", spec],
        env={**os.environ, "PYTHONPATH": os.pathsep.join((str(tmp_path), ROOT))},
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert run.returncode == code, run.stderr
    assert said in run.stdout + run.stderr
    assert "Traceback" not in run.stderr
