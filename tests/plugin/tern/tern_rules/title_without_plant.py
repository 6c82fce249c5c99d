"""TI001: a rule about the whole specification."""

from hts.plugin import Bad, Case, Good, Rule

RULE = Rule(
    "TI001",
    "title-without-plant",
    "warning",
    summary="A job whose title does not begin with the plant.",
    why="The store on Tern Island files papers by plant.",
    fix="Begin the title with the plant.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("Tern Island (invented): header butt", "Header butt"),), at="Header butt"),),
    good=(Good((("header butt", "outlet header"),)),),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    if job is not None and job.name and not job.name.startswith("Tern Island"):
        case.add(
            RULE.found("the title does not begin with the plant", job.place("name"), address="job")
        )
