"""The texts of all papers: one catalogue a language, templates with named parameters."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml

_FOLDER = Path(__file__).parent


@cache
def catalogue(language: str) -> Mapping[str, str]:
    """Every text of a language by its id."""
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    texts: dict[str, str] = yaml.load(
        (_FOLDER / f"{language}.yaml").read_text(encoding="utf-8"), Loader=loader
    )
    return texts


def say(key: str, /, **words: Any) -> str:
    """The text of an id with its words in their places. Raises `KeyError` where id or word is missing."""
    return catalogue("en")[key].format_map(words)
