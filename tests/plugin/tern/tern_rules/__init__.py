"""House rules of Tern Island, an invented plant: an example of a rule pack."""

from tern_rules import datum_not_top, hold_beyond_a_shift, title_without_plant

RULES = [datum_not_top.RULE, hold_beyond_a_shift.RULE, title_without_plant.RULE]
