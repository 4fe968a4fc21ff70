"""Reading the files that people write: YAML text into typed models, each mistake with its line."""

from ferrule.document.problem import Path, Problem, Unreadable
from ferrule.document.reader import Document, Record, attempt, parse, read
from ferrule.document.refusal import refused

__all__ = ["Document", "Path", "Problem", "Record", "Unreadable", "attempt", "parse", "read", "refused"]
