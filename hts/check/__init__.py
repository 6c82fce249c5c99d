"""Checks a specification: language, limits, rules, waivers."""

from hts.check.case import Case
from hts.check.run import check_spec

__all__ = ["Case", "check_spec"]
