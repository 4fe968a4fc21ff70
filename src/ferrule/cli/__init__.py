"""The command line: a thin door to what the library can do. Each command loads what it needs when it runs."""

from ferrule.cli.main import main, program

__all__ = ["main", "program"]
