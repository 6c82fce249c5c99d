"""What a check reports: kinds of finding, and the findings themselves."""

from hts.base.findings.finding import Finding, Label, Report, ordered
from hts.base.findings.fix import LAYOUT, OFFERED, Edit, Fix, FixKind
from hts.base.findings.kind import ADVICE, ERROR, WARNING, Kind, Severity

__all__ = [
    "ADVICE",
    "ERROR",
    "LAYOUT",
    "OFFERED",
    "WARNING",
    "Edit",
    "Finding",
    "Fix",
    "FixKind",
    "Kind",
    "Label",
    "Report",
    "Severity",
    "ordered",
]
