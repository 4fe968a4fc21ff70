"""`ferrule schema`: the JSON Schema of a job file."""

import argparse
import json

from ferrule.document import Record
from ferrule.job.firm import Firm
from ferrule.job.job import Job
from ferrule.parts.library import PartFile

_MODELS: dict[str, type[Record]] = {"job": Job, "part": PartFile, "firm": Firm}


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", nargs="?", default="job", choices=_MODELS, help="which file (default: job)")


def run(given: argparse.Namespace) -> int:
    schema = _MODELS[given.file].model_json_schema(by_alias=True)
    print(
        json.dumps({"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}, ensure_ascii=False)
    )
    return 0
