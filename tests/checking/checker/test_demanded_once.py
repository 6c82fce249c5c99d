"""What practice asks for is not told beside a demand for the same that is not met."""

from __future__ import annotations

from hts.base.findings import Finding
from hts.checking.checker.run import check_spec
from hts.checking.rules.catalogue import rules
from hts.checking.rules.examples import BASES
from hts.language.vocabulary.paths import find
from hts.language.vocabulary.spec import File
from tests.rows import each_row
from tests.texts import spec_of

_LINE = "  requires spare for controlling thermocouples"
_T3 = "T3   monitors soak edge      at 12:00, 40 mm downstream    channel 3"
_T4 = "at 6:00,  40 mm upstream  "
_T4S = _T4.replace("upstream  ", "downstream")
_KEPT = "  when interrupted  cool slowly and preheat again\n"
_PROBE = "contact probe at 76 mm on face toward the welder from"
_RECORDED = "  recorded by         R1\n"

#: By rule: what a procedure requires, and the change of the base that breaks both.
CASES: dict[str, tuple[str, str, str]] = {
    "C127": ("lead at least 1 m", "    lead at least       1 m\n", "    lead at least 0.5 m\n"),
    "C145": ("lead at least 1 m", "    lead at least       1 m\n", "    lead at least 0.4 m\n"),
    "K103": (
        "after heat hardness weld at most 248 HV10",
        "controller C1 {",
        "after heat W12 {\n  hardness weld at most 300 HV10 count 3\n}\n\ncontroller C1 {",
    ),
    "C107": ("recorder resolution at most 1 K", "resolution  1 K", "resolution  20 K"),
    "C108": ("attached legs apart at most 5 mm", "legs apart 6 mm", "legs apart 6.4 mm"),
    "C111": (
        'junction cover "refractory putty"',
        '    junction cover      "refractory putty"\n',
        "",
    ),
    "C115": ("attached each leg apart", " each leg apart\n    extension", "\n    extension"),
    "C124": ("extension connectors same alloy", "length 20 m", "length 20 m connectors copper"),
    "C134": ("attached legs apart at most 6 mm", "legs apart 6 mm ", ""),
    "C140": ("extension connectors same alloy", "length 20 m", "length 20 m connectors none"),
    "E105": ("cycle recorded by", _RECORDED, ""),
    "E112": ("power source kind transformer", "  kind      transformer\n", ""),
    "J208": ("qualified hold", "hold 8 h condition", "condition"),
    "N101": ("heating ends closed and vented", "    ends           closed and vented\n", ""),
    "N105": ("flanges unbolted", "  expansion  free\n", "  expansion  free\n  flanges bolted\n"),
    "N107": ("support fixed", "1.2 m upstream fixed", "1.2 m upstream"),
    "N108": (
        "heating insulation layers at least 2",
        '    insulation     "ceramic fibre blanket" thickness 50 mm layers 2\n',
        "",
    ),
    "N110": ("heating bore drained and dry", "    bore           drained and dry\n", ""),
    "N119": ("made in field", "  made in    field\n", "  flanges    none\n"),
    "P120": ("preheat when interrupted keep hot", _KEPT, ""),
    "P126": ("preheat width at least 75 mm each side", "  width             75 mm each side\n", ""),
    "P129": ("preheat method resistance", "  method            resistance\n", ""),
    "P130": ("measured by contact probe at 76 mm", _PROBE, _PROBE.replace("at 76 mm ", "")),
    "P132": ("preheat maintain at least 150 degC", _KEPT, "  when interrupted keep hot\n"),
    "Y110": (
        "cycle hold counts while all in range",
        "  hold counts         while all in range\n",
        "",
    ),
    "Y114": (
        "cycle sensor break upscale",
        "  sensor break        upscale\n",
        "  sensor break downscale\n",
    ),
    "Y116": ("program revision", "  rate margin  ", '  program "P12"\n  rate margin  '),
    "Y130": ("cycle sensor break upscale", "  sensor break        upscale\n", ""),
    "Y136": ("cycle cool in still air", "  cool  in still air\n", ""),
    "Y139": ("cycle rate margin at least 5 %", "rate margin         10 %", "rate margin 0 %"),
    "Y143": (
        "cycle finally power off",
        "  rate margin  ",
        "  remove insulation below 80 degC\n  rate margin  ",
    ),
    "Z111": ("thermocouple T3 channel", _T3, _T3.replace("    channel 3", "")),
    "Z119": ("monitor soak edge count 1 each side", _T4, _T4S),
    "Z139": ("thermocouple T1 control channel", "channel 1   control channel 1", "channel 1"),
}


def _told(demand: str, old: str, new: str) -> list[Finding]:
    text = BASES["procedure"]
    line = f"  requires {demand}\n" if demand else ""
    for before, after in ((old, new), (_LINE, f"{line}{_LINE}")):
        assert before in text, before
        text = text.replace(before, after, 1)
    return check_spec(spec_of(text))


def test_every_rule_that_says_what_it_asks_for_is_here() -> None:
    asking = {rule.kind.code for rule in rules() if rule.about}
    assert asking == CASES.keys() - {"Z119"}


def test_what_rules_ask_for_is_there() -> None:
    for rule in rules():
        for path in rule.about:
            assert find(File, path)


@each_row("code", CASES)
def test_a_demand_that_is_not_met_is_told_alone(code: str) -> None:
    demand, old, new = CASES[code]
    assert code in [finding.kind.code for finding in _told("", old, new)]
    assert {finding.kind.code for finding in _told(demand, old, new)} == {"R111"}


def test_what_a_demand_does_not_ask_for_is_told_beside_it() -> None:
    """The bore is no matter of the ends, though both are missing at one place."""
    ends, bore = "    ends           closed and vented\n", "    bore           drained and dry\n"
    told = _told("heating ends closed and vented", ends + bore, "")
    assert sorted(finding.kind.code for finding in told) == ["N110", "R111"]
