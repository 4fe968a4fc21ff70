"""`ferrule cuts JOB`: every piece of cable with its allowances, packed onto the lengths one can buy."""

import argparse
import json
from typing import Any

from ferrule.answering import answer
from ferrule.cli import plain
from ferrule.cli.paint import Paint
from ferrule.job.load import load
from ferrule.sheets.cutlist import CutList, Cutting, cut_list, cuts, lengths
from ferrule.sheets.text import lines

arguments = plain.arguments


def run(given: argparse.Namespace) -> int:
    result = answer(load(given.job))
    found = cut_list(result)
    if given.json:
        print(json.dumps(_plain(found), ensure_ascii=False, indent=1))
    else:
        width = Paint.for_terminal().width
        print("\n".join([*lines(cuts(result), width), "", *lines(lengths(result), width)]))
    return 3 if found.asks else 0


def _plain(found: CutList) -> dict[str, Any]:
    return {
        "cables": [_cable(each) for each in found.cuttings],
        "patches": [each._asdict() for each in found.patches],
        "find_out": [{"of": of, "ask": ask} for of, ask in found.asks],
    }


def _cable(cutting: Cutting) -> dict[str, Any]:
    return {
        "cable": cutting.cable,
        "by_metre": cutting.by_metre,
        "bought_m": cutting.bought_m,
        "least_bought_m": cutting.least_bought_m,
        "cut_m": cutting.cut_m,
        "lengths": [
            {"length_m": each.length_mm / 1000, "pieces": list(each.pieces)} for each in cutting.plan.cuts
        ],
        "pieces": [piece._asdict() for piece in cutting.pieces],
    }
