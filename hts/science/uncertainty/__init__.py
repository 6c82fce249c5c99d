"""Uncertainty of a temperature and what it means for a limit. Plain floats, one unit throughout.

budget    terms, standard and expanded uncertainty
decision  guard bands, verdicts, probability of conformance

Codes of construction limit the temperature that is recorded and ask for no guard band, so one is
applied only where a specification names it.
"""
