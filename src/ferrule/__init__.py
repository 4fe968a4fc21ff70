"""Ferrule: one description of a house's solar, battery and backup installation in, every answer out.

    import ferrule

    job = ferrule.load("job.yaml")
    result = ferrule.answer(job)

What the command line can do, the library can; heavy parts load when they are first asked for.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ferrule.answering import Answer, answer
    from ferrule.job.load import Loaded, load

__version__ = "0.1.0"
__all__ = ["Answer", "Loaded", "answer", "load"]

_HOMES = {"Answer": "answering", "answer": "answering", "Loaded": "job.load", "load": "job.load"}


def __getattr__(name: str) -> Any:
    if name in _HOMES:
        from importlib import import_module

        return getattr(import_module(f"ferrule.{_HOMES[name]}"), name)
    raise AttributeError(f"module 'ferrule' has no attribute {name!r}")
