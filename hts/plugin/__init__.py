"""Rules of your own: everything a rule pack builds on, in one place.

A pack is a package that offers a list of rules under the entry point group `hts.rules`:

    # pyproject.toml of the pack
    [project.entry-points."hts.rules"]
    tern = "tern_rules:RULES"

A rule names a bad pattern and is tied to one function that looks for it, in a whole specification
(`for_spec`), in each joint (`for_joint`) or in each bake and cycle of each joint (`for_treatment`):

    from hts.plugin import Bad, Case, Joint, Rule

    RULE = Rule(
        "TI001", "cap-not-measured", "warning",
        summary="A joint without the width of its cap.",
        why="The store on Tern Island cuts the soak band by it.",
        fix="State the cap width.",
        source="common practice, no source", basis="practice",
        bad=(Bad((("  cap width    20 mm\\n", ""),), at="W1"),),
    )

    @RULE.for_joint
    def check(case: Case, joint: Joint) -> None:
        if joint.entry.cap_width is None:
            at = joint.entry.place()
            case.add(RULE.found("the cap width is not stated", at, address=joint.name))

    RULES = [RULE]

What a pack owes its users is held when it is loaded: a code of two to eight capital letters and
three digits, a source with its basis, at least one bad example, and no error that rests on memory
or mere practice. An `Edge` is two examples at the limit of a rule: the last value that keeps it and
the next one. `hts.plugin.testing.check_examples` holds the examples against the rules.

**Stability.** What this module and `hts.plugin.testing` export keeps its names and its meaning
within a major version of `hts`; what is added may be relied on from the version that adds it.
Nothing else of `hts` is promised to packs: `joint.entry` and `treatment.entry` follow the language
(grammar/LANGUAGE.md) and change only as it does.

**Trust.** No pack runs because a repository names it: the user allows it by name, with
`--allow-pack` or in the settings of their own (`hts.plugin.allow` for a program).
A rule looks at nothing but its case: outcomes are kept until text, settings or pack change, so a
rule that asked the clock, the network or a file would be told from memory. Ask `case.past(day)`.
"""

from hts.base.findings import ADVICE, ERROR, WARNING, Finding, Kind, Label, Severity
from hts.base.quantities import (
    DIFFERENCE,
    LENGTH,
    POWER,
    RATE,
    TEMPERATURE,
    TIME,
    Dimension,
    Interval,
    Quantity,
)
from hts.base.quantities.clock import ClockPosition
from hts.base.text import Source, Span
from hts.checking.checker.results import PackError
from hts.checking.configuration.allowed import allow
from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model import Spec
from hts.language.model.joint import Joint, Thermocouple, Treatment, Zone
from hts.language.vocabulary.types import BY_RULE

__all__ = [
    "ADVICE",
    "BY_RULE",
    "DIFFERENCE",
    "ERROR",
    "LENGTH",
    "POWER",
    "RATE",
    "TEMPERATURE",
    "TIME",
    "WARNING",
    "Bad",
    "Case",
    "ClockPosition",
    "Dimension",
    "Edge",
    "Finding",
    "Good",
    "Interval",
    "Joint",
    "JointLimits",
    "Kind",
    "Label",
    "PackError",
    "Quantity",
    "Rule",
    "Severity",
    "Source",
    "Span",
    "Spec",
    "Thermocouple",
    "Treatment",
    "Zone",
    "allow",
]
