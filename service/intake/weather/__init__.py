"""Temperatures that people bring: rows of JSON or a file of columns in, a series and how it was read out.

Nothing is guessed and nothing passes in silence. A unit is what a column's name or the person says it is, and figures
that cannot be in that unit are refused. A row without a reading is a gap and is counted.
"""
