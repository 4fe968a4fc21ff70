"""`ferrule steps JOB`: the steps of this job from unloading to handing over, by moment or at one place."""

import argparse
import json
from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import Any

from ferrule.answering import answer
from ferrule.checks.subjects import PLACES
from ferrule.cli.paint import Paint
from ferrule.job.load import load
from ferrule.proving.steps import Step, cautions, held, steps
from ferrule.proving.words import LANGUAGES, Catalogue, catalogue


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", help="the job file")
    parser.add_argument("--place", choices=PLACES, help="only the steps at this place")
    parser.add_argument("--language", choices=LANGUAGES, default="en", help="of the texts (default en)")
    parser.add_argument("--json", action="store_true", help="for another program instead of a person")


def run(given: argparse.Namespace) -> int:
    result = answer(load(given.job))
    every = steps(result.design)
    waiting, words = held(every), catalogue(given.language)
    here = [step for step in every if given.place in (None, step.place)]
    if given.json:
        print(json.dumps([_plain(step, waiting, words) for step in here], ensure_ascii=False, indent=1))
    else:
        paint = Paint.for_terminal()
        print(paint.strong(result.loaded.job.name))
        if not result.cleared:
            print(words.text("label.not_cleared"))
        print("\n".join(_told(here, waiting, words, paint)))
    return 3 if waiting else 0


def _plain(step: Step, waiting: Mapping[str, tuple[str, ...]], words: Catalogue) -> dict[str, Any]:
    return {
        "id": step.id,
        "text": words.text(step.text, step.words),
        "phase": step.phase,
        "place": step.place,
        "subject": str(step.subject),
        "requires": list(step.requires),
        "gate": step.gate,
        "readings": [
            {"id": each.id, "text": words.text(each.text, each.words), "unit": each.unit}
            for each in step.readings
        ],
        "tools": [words.text(tool) for tool in step.tools],
        "parts": list(step.parts),
        "drawing": step.drawing,
        "cautions": [words.text(caution) for caution in step.cautions],
        "find_out": list(step.find_out),
        "waits_for": list(waiting.get(step.id, ())),
    }


def _told(
    here: list[Step], waiting: Mapping[str, tuple[str, ...]], words: Catalogue, paint: Paint
) -> Iterator[str]:
    yield ""
    yield paint.strong(words.text("label.cautions"))
    notes = {caution: str(at) for at, caution in enumerate(cautions(here), start=1)}
    for caution, at in notes.items():
        yield from paint.wrapped(f"{at:>2}  {words.text(caution)}", 2, 6)
    for phase, found in groupby(here, key=lambda step: step.phase):
        yield ""
        yield paint.strong(words.text(f"phase.{phase}"))
        for step in found:
            yield from _one(step, step.id in waiting, notes, words, paint)


def _one(step: Step, waits: bool, notes: Mapping[str, str], words: Catalogue, paint: Paint) -> Iterator[str]:
    yield from paint.wrapped(f"[ ] {words.text(step.text, step.words)}", 2, 6)
    yield paint.quiet(f"      {step.id}  {words.text(f'place.{step.place}')}")
    if step.find_out:
        yield from paint.wrapped(f"{words.text('label.find_out')}: {'; '.join(step.find_out)}", 6, 8)
    elif waits:
        yield f"      {words.text('label.waits')}"
    if step.cautions:
        yield f"      {words.text('label.cautions')}: {', '.join(notes[each] for each in step.cautions)}"
    if step.tools:
        listed = ", ".join(words.text(tool) for tool in step.tools)
        yield from paint.wrapped(f"{words.text('label.tools')}: {listed}", 6, 8)
    if step.readings:
        listed = "; ".join(
            f"{words.text(each.text, each.words)} ____ {each.unit}".rstrip() for each in step.readings
        )
        yield from paint.wrapped(f"{words.text('label.readings')}: {listed}", 6, 8)
    if step.gate:
        yield from paint.wrapped(f"{words.text('label.gate')}: {words.text(f'gate.{step.gate}')}", 6, 8)
