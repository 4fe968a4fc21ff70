"""`python -m ferrule`."""

from ferrule.cli import program

program()
