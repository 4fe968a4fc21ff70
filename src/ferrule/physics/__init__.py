"""Formulas of physics and arithmetic as pure functions of plain floats; no table, no file, no job."""
