"""House rules of Tern Island, an invented plant: an example of a rule pack."""

from tern_rules import hold_beyond_a_shift, title_without_plant, viewed_against_flow

RULES = [viewed_against_flow.RULE, hold_beyond_a_shift.RULE, title_without_plant.RULE]
