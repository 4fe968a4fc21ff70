"""`ferrule schema`: the JSON Schema of a job file, a part file or a firm's file."""

import argparse
import json
from typing import Any

from pydantic.json_schema import GenerateJsonSchema

from ferrule.document import Record
from ferrule.fact import Unknown
from ferrule.job.firm import Firm
from ferrule.job.job import Job
from ferrule.parts.library import PartFile

_MODELS: dict[str, type[Record]] = {"job": Job, "part": PartFile, "firm": Firm}

#: what the keys mean that most records have
_KEYS = {
    "ferrule": "version of the file's form, always 1",
    "id": "the name by which other places of the job refer to it",
    "kind": "what kind of thing it is",
    "name": "what people call it",
    "source": "where the figures come from: document, issue, date",
    "part": "id of its datasheet, in parts: or in a file parts/ID.yaml",
    "rulebook": "whose rules the job is judged by",
    "architecture": "how metering and backup are arranged",
    "firm": "the firm's file; left out, it is firm.yaml beside the job",
    "from": "the terminal where it begins: supply, MB, INV1.grid, S1",
    "to": "the terminal, or the load, where it ends",
    "module": "id of the module's datasheet",
    "cable": "id of the cable's datasheet",
    "place": "where the house stands",
    "run": "id of the run that leaves the board here",
    "face": "id of the face it lies on",
    "input": "the inverter's input it lands on: INV1.PV1",
}


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", nargs="?", default="job", choices=_MODELS, help="which file (default: job)")


def run(given: argparse.Namespace) -> int:
    print(json.dumps(schema(given.file), ensure_ascii=False))
    return 0


def schema(file: str) -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a job, part or firm file."""
    made = _MODELS[file].model_json_schema(by_alias=True, schema_generator=_AsWritten)
    return {"$schema": GenerateJsonSchema.schema_dialect, **made}


class _AsWritten(GenerateJsonSchema):
    """The schema of what a person writes, as an editor reads it.

    An editor takes `1` for a number and, by the version of YAML it follows, `yes` for true or for a word; the
    reader takes every scalar as text and lets the record decide.
    """

    def field_title_should_be_set(self, schema: Any) -> bool:
        return False

    def default_schema(self, schema: Any) -> dict[str, Any]:
        """A default is told in words; as a value it would be offered for typing in."""
        return self.generate_inner(schema["schema"])

    def model_field_schema(self, schema: Any) -> dict[str, Any]:
        """A value may say where it comes from; where it may be left out, it may be nothing or unknown."""
        value, text, kind = (
            self.generate_inner(schema["schema"]),
            {"type": "string"},
            schema["schema"]["type"],
        )
        if kind in {"str", "literal"}:  # a name or a kind comes from nowhere but the file
            return value
        stated = {
            "type": "object",
            "properties": {"value": value, "from": text, "note": text},
            "required": ["value"],
            "additionalProperties": False,
        }
        if kind != "default":
            return {"anyOf": [value, stated]}
        left_out = {"enum": [None, "unknown"]}
        default = schema["schema"]["default"]
        told = {"description": default.ask} if isinstance(default, Unknown) else {}
        return {"anyOf": [value, stated, left_out], **told}

    def model_fields_schema(self, schema: Any) -> dict[str, Any]:
        made = super().model_fields_schema(schema)
        for key, value in made["properties"].items():
            if key in _KEYS:
                value.setdefault("description", _KEYS[key])
        return made

    def literal_schema(self, schema: Any) -> dict[str, Any]:
        words = [str(word) for word in schema["expected"]]
        return {"enum": [*words, *(int(word) for word in words if word.isdecimal())]}

    def bool_schema(self, schema: Any) -> dict[str, Any]:
        return {"enum": [True, False, "yes", "no", "true", "false"]}

    def function_plain_schema(self, schema: Any) -> dict[str, Any]:
        unit = schema.get("metadata", {}).get("unit")
        if unit is None:
            return super().function_plain_schema(schema)
        if unit.whole and not unit.symbol:
            return {
                "type": "integer", "minimum": unit.low, "maximum": unit.high, "description": unit.allowed(),
            }  # fmt: skip
        return {"type": ["string", "number"], "description": unit.allowed()}

    def str_schema(self, schema: Any) -> dict[str, Any]:
        return {**super().str_schema(schema), "type": ["string", "number"]}
