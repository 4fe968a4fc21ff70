"""Formulas of physics and arithmetic as pure functions of plain floats; no table, no file, no job.

A function whose inputs have no answer (a division by zero, the root of a negative number) raises
`ArithmeticError` or `ValueError`, as Python's own arithmetic does. Within the ranges of the annotations none
returns NaN or infinity.
"""
