"""What a joint has been through before a cycle counts with it, also what its own document plans."""

from hts.checking.rules.examples import BUTT, CYCLE
from hts.job.compiler import compile_spec
from hts.job.demands.asked import Asked
from hts.record.judging.time_at_temperature import been_through
from tests.texts import spec_of

SECOND = "\ncycle second for W12 {\n" + CYCLE.replace("for 2 h", "for 2 h at most 3 h") + "}\n"
THIRD = "\ncycle third for W12 {\n" + CYCLE + "}\n"
EARLIER = '  qualified  "PQR-31"', '  already heated 1 h at 700 degC "Shop"\n  qualified  "PQR-31"'


def test_cycles_written_before_this_one_count_as_long_as_they_may_last():
    job = compile_spec(spec_of(BUTT.replace(*EARLIER) + SECOND + THIRD))
    (sheet,) = job.joints
    runs = {run.program.name: run for run in sheet.runs}
    # 1 h at 700 degC; the first at most 730 degC for 2 h; the second as hot for up to 3 h.
    known = {name: been_through(Asked(job, sheet, run)) for name, run in runs.items()}
    assert known["stress-relief"] == [(700, 3600)]
    assert known["second"] == [(700, 3600), (730, 7200)]
    assert known["third"] == [(700, 3600), (730, 7200), (730, 10800)]
