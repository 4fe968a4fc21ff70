"""`ferrule new`: a commented starter job."""

import argparse
from pathlib import Path

from ferrule.cli.files import write_new
from ferrule.job.starter import ARCHITECTURES, starter


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--architecture", required=True, choices=ARCHITECTURES, help="how metering and backup are arranged"
    )
    parser.add_argument("-o", dest="file", type=Path, help="the file to write (default: print it)")


def run(given: argparse.Namespace) -> int:
    text = starter(given.architecture)
    if given.file is None:
        print(text, end="")
        return 0
    write_new(given.file, text)
    print(f"{given.file}: now   ferrule check {given.file}   says what to find out")
    return 0
