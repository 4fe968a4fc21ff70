"""The catalogues of two languages say the same, with the same numbers."""

import hashlib
import re
import string
from functools import cache
from pathlib import Path
from typing import Any, get_args

import pytest

from arrangements import RUNS, job
from ferrule.answering import answer
from ferrule.checks.subjects import PLACES
from ferrule.design import Design, House
from ferrule.fact import Unknown
from ferrule.job.lifting import Lifters
from ferrule.job.load import load
from ferrule.job.roof import Roof
from ferrule.job.starter import ARCHITECTURES, starter
from ferrule.parts.port import Parity
from ferrule.proving import isolation
from ferrule.proving.phrase import Term, Words
from ferrule.proving.steps import Gate, Step, steps
from ferrule.proving.words import LANGUAGES, Catalogue, catalogue
from ferrule.wiring.recipes import topology
from ferrule.wiring.topology import Position
from houses import answered

PART = "parts.example-hybrid-6k-single"
HOUSES = ("meter-led", "controller-led", "changeover-led")
SOURCE = "\n".join(
    file.read_text()
    for room in ("proving", "cli")
    for file in (Path(isolation.__file__).parent.parent / room).rglob("*.py")
)


@cache
def day(house: str) -> tuple[Step, ...]:
    return steps(answered({}, house, firm=True).design)


def parameters(template: str) -> list[str]:
    return sorted(name for _, name, _, _ in string.Formatter().parse(template) if name is not None)


def rendered(found: tuple[Step, ...], words: Catalogue) -> list[str]:
    """All texts of these steps, each by itself."""
    texts = []
    for step in found:
        texts.append(words.text(step.text, step.words))
        texts += [words.text(each.text, each.words) for each in step.readings]
        texts += [words.text(key) for key in (*step.tools, *step.cautions, f"phase.{step.phase}")]
    return texts


def numbers(texts: list[str]) -> str:
    """A checksum of the numbers of each text, in whatever order its language puts them."""
    found = [sorted(re.findall(r"\d+(?:[.,]\d+)?", text)) for text in texts]
    assert any(found)
    return hashlib.sha256(repr(found).encode()).hexdigest()


def test_every_language_has_the_same_keys() -> None:
    assert LANGUAGES == ("en", "de")
    keys = [set(catalogue(language).templates) for language in LANGUAGES]
    assert len(keys[0]) > 250
    assert keys[0] == keys[1]


@pytest.mark.parametrize("key", sorted(catalogue().templates))
def test_a_text_has_the_same_parameters_in_each_language_and_no_number_of_its_own(key: str) -> None:
    english, german = (catalogue(language).templates[key] for language in LANGUAGES)
    assert parameters(english) == parameters(german)
    for template in (english, german):
        assert template.strip() == template != ""
        assert not re.search(r"\d", re.sub(r"\{\w+\}", "", template))


#: written alike in both languages
ALIKE = {"phase.signal", "point.rating", "address"}


def test_all_is_translated() -> None:
    english, german = (catalogue(language).templates for language in LANGUAGES)
    alike = {key for key in english if english[key] == german[key]}
    assert alike == ALIKE


@pytest.mark.parametrize("house", HOUSES)
def test_numbers_are_the_same_in_each_language(house: str) -> None:
    sums = {numbers(rendered(day(house), catalogue(language))) for language in LANGUAGES}
    assert len(sums) == 1


@pytest.mark.parametrize("arrangement", RUNS)
def test_every_text_of_every_arrangement_finds_its_words(arrangement: str) -> None:
    """With nothing chosen and hardly anything known, two inverters and a generator."""
    built = job(arrangement, inverters=2, generator={"transfer": "all-live", "link": "fixed"})
    found = steps(Design(House(built, topology(built))))
    for language in LANGUAGES:
        assert all(rendered(found, catalogue(language)))


@pytest.mark.parametrize("architecture", ARCHITECTURES)
def test_every_text_of_a_job_of_which_nothing_is_known_finds_its_words(
    architecture: str, tmp_path: Path
) -> None:
    file = tmp_path / "job.yaml"
    file.write_text(starter(architecture), encoding="utf-8")
    found = steps(answer(load(file)).design)
    for language in LANGUAGES:
        assert all(rendered(found, catalogue(language)))


#: what the demo houses do not have
OTHERS: list[dict[str, Any]] = [
    {f"{PART}.start_order": ["ac", "pv", "battery"]},
    {f"{PART}.start_order": ["pv", "ac", "battery"]},
    {f"{PART}.start_order": ["battery", "ac"]},
    {"supply.utility.export_max": "none", "devices.INV1.charge_set": "20 A"},
    {"devices.BAT.isolator": "none", "parts.example-lfp-10k.isolates": "none"},
    {"faces.0.roof": "none", "faces.0.mounting": "rack"},
    {f"{PART}.dc_switch": "no"},
]


@pytest.mark.parametrize("edits", OTHERS, ids=lambda edits: next(iter(edits)))
def test_every_text_of_a_house_changed_finds_its_words(edits: dict[str, Any]) -> None:
    found = steps(answered(edits, firm=True).design)
    for language in LANGUAGES:
        assert all(rendered(found, catalogue(language)))


def test_quantities_stand_in_the_unit_of_their_name() -> None:
    step = next(step for step in day("meter-led") if step.id == "mark/INV1")
    for language in LANGUAGES:
        text = catalogue(language).text(step.text, step.words)
        assert "900 mm" in text
        assert "1250 mm" in text


def test_what_is_not_known_is_said_so_in_each_language() -> None:
    words: Words = (("device", "INV1"), ("wall", Unknown("which wall")), ("left_mm", 1.0), ("bottom_mm", 2.0))
    assert "still to be found out" in catalogue("en").text("step.mark", words)
    assert "noch herauszufinden" in catalogue("de").text("step.mark", words)


def test_a_name_that_looks_like_a_template_stays_as_it_is() -> None:
    hostile = "{device} %s {0} $x"
    for language in LANGUAGES:
        assert hostile in catalogue(language).text("step.fit", (("device", hostile),))


def test_a_list_of_phrases_and_an_empty_one() -> None:
    words = catalogue("de")
    assert words.word((Term("services.clear"), "x")) == "frei, x"
    assert words.word(()) == "keine"


KINDS: dict[str, tuple[Any, ...]] = {
    "point": get_args(isolation.PointKind),
    "lock": get_args(isolation.Lock),
    "who": get_args(isolation.Who),
    "source": get_args(isolation.SourceKind),
    "remain": get_args(isolation.RemainKind),
    "proof": isolation.PROOF,
    "position": get_args(Position),
    "gate": get_args(Gate),
    "place": PLACES,
    "lift": get_args(Lifters),
    "parity": get_args(Parity),
}


def literals(model: Any, field: str) -> tuple[str, ...]:
    """The words that a fact of a record may have."""
    found: list[str] = []
    for kind in get_args(model.model_fields[field].annotation):
        found += [word for word in get_args(kind) if isinstance(word, str)]
    return tuple(found)


@pytest.mark.parametrize("kind", KINDS)
def test_every_word_of_a_kind_has_its_text(kind: str) -> None:
    assert {f"{kind}.{word}" for word in KINDS[kind]} <= set(catalogue().templates)


@pytest.mark.parametrize(
    ("kind", "field"), [("access", "access"), ("fall", "fall_protection"), ("services", "services")]
)
def test_every_word_of_the_roof_survey_has_its_text(kind: str, field: str) -> None:
    words = literals(Roof, field)
    assert words
    assert {f"{kind}.{word}" for word in words} <= set(catalogue().templates)


@pytest.mark.parametrize("key", sorted(catalogue().templates))
def test_no_text_is_left_that_nobody_says(key: str) -> None:
    kind, _, what = key.partition(".")
    families = (f"{kind}.{{", f"{kind}.{what.partition('_')[0]}_{{", f'named("{kind}"')
    assert any(said in SOURCE for said in (f'"{key}"', f"'{key}'", *families))
