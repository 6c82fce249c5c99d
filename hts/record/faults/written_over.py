"""What becomes of readings that were written over."""

from __future__ import annotations

from hts.record.faults.fault import Fault, Spell
from hts.record.faults.fault_kinds import EDITED, KEPT, LEFT_OUT, MEDIUM
from hts.record.faults.signals import Chain
from hts.record.plan import SPARE


def written_over(chain: Chain, sentence: str, spells: tuple[Spell, ...]) -> Fault:
    """The fault of one thermocouple. A spare that need not be in range stays where it is: left out,
    it would not show that the part may have been hotter."""
    spare = chain.watched is not None and chain.watched.duty == SPARE
    others = (chain.watched.spare_of,) if chain.watched is not None and spare else ()
    treatment = KEPT if spare else LEFT_OUT
    start, end = spells[0].start, spells[-1].end
    return Fault(EDITED.name, chain.tag, others, start, end, sentence, MEDIUM, treatment, spells)
