"""A preheat that no controller runs: what is read, and between which temperatures it stays."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.quantities import Quantity
from hts.job.compiler.job import Run
from hts.job.compiler.steps import HEAT, HOLD
from hts.job.compiler.why import Why, line_of
from hts.job.compiler.wording import clauses
from hts.job.outputs.marks import Marks
from hts.job.outputs.paper import Paper
from hts.job.outputs.show import DOWN, TOWARD, UP, Shown, duration
from hts.language.vocabulary.preheat import Preheat

#: Entries that stand in its table, by their words.
TOLD = ("method ", "maintain ", "measured by ", "when interrupted ", "keep until ")


def write(page: Paper, shown: Shown, marks: Marks, run: Run) -> None:
    """The limits of it, with their reasons."""
    page.heading(3, "Preheat, kept by hand")
    page.line(
        "No controller program belongs to it. Before each pass the joint is measured; too cold is "
        "heated, too hot waits, and both are written into the log."
    )
    page.table(
        ("What", "Value", "Worked out", "Source"),
        [
            (what, text + (marks.of(why) if why else ""), why.numbers if why else "", cited)
            for what, text, why, cited in rows(shown, run)
        ],
    )


def rows(shown: Shown, run: Run) -> Iterator[tuple[str, str, Why | None, str]]:
    """What, value, reason and place of every limit."""
    program, entry = run.program, run.program.entry
    assert isinstance(entry, Preheat)
    hold = next(step for step in reversed(program.steps) if step.action == HOLD)
    window = hold.window
    assert window is not None and window.low is not None and window.high is not None
    low_why, high_why = hold.window_why
    yield "At least, before every pass", shown.text(window.low, UP), low_why, low_why.cited
    yield "Interpass at most", shown.text(window.high, DOWN), high_why, high_why.cited
    if hold.set_to is not None and hold.target_why is not None:
        why = hold.target_why
        yield "Aim for", shown.setpoint_text(hold.set_to, window), why, why.cited
    for what, value, field, toward in (
        ("While welding is interrupted, at least", entry.maintain, "maintain", UP),
        ("Heating no faster than", entry.rate, "rate", DOWN),
    ):
        if isinstance(value, Quantity):
            place = line_of(entry.place(field))
            yield what, shown.text(value, toward), None, f"this specification, {place}"
    if entry.rate is None:
        for step in program.steps:
            if step.action == HEAT and step.limit is not None and step.limit_why is not None:
                cited = step.limit_why.cited
                yield "Heating no faster than", shown.text(step.limit, DOWN), step.limit_why, cited
    if entry.soak is not None:
        place = line_of(entry.place("soak"))
        yield "At preheat before the arc", duration(entry.soak.value), None, place
    for one in entry.measured:
        text = ", ".join(clauses(one, lambda value, bound: shown.text(value, TOWARD[bound])))
        yield "Measured by", text, None, line_of(one.place())
    for what, said, field in (
        ("When welding is interrupted", entry.interrupted, "interrupted"),
        ("Kept until", entry.until, "until"),
        ("Method", entry.method, "method"),
    ):
        if said:
            yield what, str(said), None, line_of(entry.place(field))
