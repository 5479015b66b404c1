"""The standard's coefficients as tables: one CSV per table, each row with its source and its mark.

Marks: solid, good, fair, weak, inferred, from memory, own choice. No printed copy of the standard was at
hand; `sources.csv` says what was read, `unconfirmed.csv` what still has to be compared with the printed copy.
"""
