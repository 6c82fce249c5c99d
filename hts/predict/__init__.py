"""What a heat treatment is predicted to do inside the wall, before anybody heats.

A prediction is never evidence of what the metal reached. Import from the modules:

told       what every output says of predictions, and what they must not be used for
setting    what a specification gives a prediction to work with, or why there is none
bore       the state of the bore, from what the text says of it
demands    what the job and its procedures want predicted
building   the model of a setting, also with its inputs varied
inputs     what it rests on, told with source and spread
course     the treatment followed in time
scatter    the steady hold many times, inputs varied within what they may be off by
widths     the narrowest band that keeps a spread, if any does
powers     power of each zone beside the quick estimate
outlook    all of it together, for one treatment of one joint
report     an outlook in words
tables     an outlook as tables, for paper and pages
document   an outlook as JSON
foresee    outlooks for a check
"""
