"""Faults of measuring chains: found in a record, each with evidence, and acted on."""

from hts.record.faults.fault import Fault, Spell
from hts.record.faults.fault_kinds import BY_NAME, KINDS, FaultKind
from hts.record.faults.find import apply, find, find_each

__all__ = ["BY_NAME", "KINDS", "Fault", "FaultKind", "Spell", "apply", "find", "find_each"]
