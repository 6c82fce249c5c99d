"""A plausible record of a cycle that never ran: for training, and for trying the judgement.

simulate      the record as text, faults and departures as asked for
DEPARTURES    ways a cycle goes wrong
WIRING        ways a measuring chain goes wrong
"""

from hts.record.simulation.departures import DEPARTURES
from hts.record.simulation.simulate import Ask, simulate
from hts.record.simulation.wiring import WIRING

__all__ = ["DEPARTURES", "WIRING", "Ask", "simulate"]
