"""A record beside what is predicted of it: traces, residuals, the bore as an estimate.

A prediction is never evidence: nothing here bears on a verdict.

comparison  the record against the model driven by its control thermocouples
words       the comparison as text
json_form   the comparison as a part of the JSON of a judged record
plot        the comparison as a picture and as pages of the report
"""
