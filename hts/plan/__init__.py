"""Which joints are heated when: heats that share a machine, and a timetable over the supplies, as a
proposal.

Nothing of a specification is changed. A heat is one program on one controller, with every joint
that runs it at the same time.
"""
