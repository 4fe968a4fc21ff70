"""The texts of site work in each language: a template with named parameters by its key, as data beside this.

A number is never part of a template: it comes in as a parameter and is written alike in every language.
"""

from functools import cache
from pathlib import Path
from typing import Any, Literal, NamedTuple, get_args

import yaml

from ferrule import display
from ferrule.fact import Unknown
from ferrule.proving.phrase import Term, Word, Words

Language = Literal["en", "de"]
LANGUAGES: tuple[Language, ...] = get_args(Language)

_FOLDER = Path(__file__).parent
_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


class Catalogue(NamedTuple):
    """The templates of one language by their keys."""

    language: Language
    templates: dict[str, str]

    def text(self, key: str, words: Words = ()) -> str:
        """A template with its words in their places. Raises `KeyError` where key or word is not there."""
        return self.templates[key].format_map({name: self.word(word, name) for name, word in words})

    def word(self, word: Word, name: str = "") -> str:
        """One word as it stands in a text; a quantity in the unit its name ends in."""
        if isinstance(word, Unknown):
            return self.templates["word.unknown"]
        if isinstance(word, Term):
            return self.text(word.key, word.words)
        if type(word) is tuple:
            return ", ".join(self.word(each, name) for each in word) or self.templates["word.none"]
        return display.word(name, word)


@cache
def catalogue(language: Language = "en") -> Catalogue:
    """The texts of a language."""
    text = (_FOLDER / f"{language}.yaml").read_text(encoding="utf-8")
    return Catalogue(language, yaml.load(text, Loader=_LOADER))
