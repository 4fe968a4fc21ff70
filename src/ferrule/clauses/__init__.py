"""The standards' own procedures: pure functions over plain values and a rulebook's tables."""

from importlib import import_module

from ferrule.clauses.procedures import Procedures
from ferrule.rules import Rulebook
from ferrule.working import Trace

#: the families there are, each a package here that exports `PROCEDURES`
FAMILIES = ("iec60364", "nec", "bs7671", "asnzs")


class Unbound(Exception):
    """A rulebook that lacks what its procedures read."""


class Code:
    """A rulebook with the procedures that read it: what a design is judged by."""

    def __init__(self, rulebook: Rulebook, procedures: Procedures) -> None:
        self.rulebook = rulebook
        self.procedures = procedures

    def trace(self) -> Trace:
        """A fresh working over this code's tables."""
        return Trace(self.rulebook)


def bind(rulebook: Rulebook) -> Code:
    """Join a rulebook to the procedures of its family.

    Raises `Unbound` where the family is not known or a procedure's table is not in the rulebook.
    """
    if rulebook.family not in FAMILIES:
        raise Unbound(f"rulebook {rulebook.edition} names the family {rulebook.family}; known: {FAMILIES}")
    procedures: Procedures = import_module(f"ferrule.clauses.{rulebook.family}").PROCEDURES
    lacking = sorted(procedures.needs().difference(rulebook.names()))
    if lacking:
        raise Unbound(f"rulebook {rulebook.edition} lacks {', '.join(lacking)}")
    return Code(rulebook, procedures)
