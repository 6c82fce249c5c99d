"""What is asked of a run, and judged of its record afterwards: one reading for paper and judge.

asked        the demands of a run: limits, spreads, allowances, what counts
watched      its thermocouples, and which of them the hold hangs on
guard        the guard band by which limits of temperature are drawn in
critical     how far it stays below critical and tempering temperatures
"""
