"""Choosing what the job leaves open, by asking the same questions that check it."""

from ferrule.choose.engine import Choice, choose, turning_on
from ferrule.choose.remedies import remedies

__all__ = ["Choice", "choose", "remedies", "turning_on"]
