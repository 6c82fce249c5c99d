"""Checks a specification: language, limits, rules, waivers."""

from hts.check.run import check_spec
from hts.govern.case import Case

__all__ = ["Case", "check_spec"]
