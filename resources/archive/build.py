"""Makes keeper.schema.json, the JSON Schema (2020-12) of an archive's keeper.json, from the tables of a keeper.

    python -m resources.archive.build
"""

import json
import tempfile
from pathlib import Path

from keeper.actions.opening import open_or_begin
from keeper.exchange.out.rows import FORMAT, VERSION
from keeper.store.file.opening import SCHEMA
from keeper.store.rows.shape import WHAT, ColumnShape, TableShape, tables

HERE = Path(__file__).resolve().parent
FILE = HERE / "keeper.schema.json"

_TYPES = {"TEXT": "string", "INTEGER": "integer", "INT": "integer", "REAL": "number"}
_DATE = {"pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}


def schema() -> dict:
    """The schema as it is for the tables of today."""
    with tempfile.TemporaryDirectory() as folder, open_or_begin(Path(folder) / "keeper") as store:
        its = tables(store)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": f"urn:keeper-of-days:archive:{VERSION}:{SCHEMA}",
        "title": "Everything that a keeper of days holds",
        "description": "A diary kept night by night, as tables. Nights are dates, moments ISO 8601 in UTC, ids UUIDs.",
        "type": "object",
        "required": ["format", "version", "schema", "whole", "tables"],
        "properties": {
            "format": {"const": FORMAT},
            "version": {"const": VERSION},
            "schema": {"type": "integer", "description": "The number of the shape of the tables."},
            "whole": {"type": "boolean", "description": "Whether nothing was held back."},
            "tables": {
                "type": "object",
                "properties": {table.name: _rows(table) for table in its},
                "additionalProperties": False,
            },
        },
        "$defs": {table.name: _row(table) for table in its},
    }


def _rows(table: TableShape) -> dict:
    told = {"description": WHAT[table.name]} if table.name in WHAT else {}
    return {**told, "type": "array", "items": {"$ref": f"#/$defs/{table.name}"}}


def _row(table: TableShape) -> dict:
    return {
        "type": "object",
        "required": list(table.names),
        "properties": {column.name: _column(column) for column in table.columns},
        "additionalProperties": False,
    }


def _column(column: ColumnShape) -> dict:
    if column.type == "BLOB":
        its: dict = {"type": "object", "required": ["base64"], "properties": {"base64": {"type": "string", "contentEncoding": "base64"}}}
    else:
        its = {"type": _TYPES[column.type]}
    if column.choices:
        its["enum"] = [one if column.type == "TEXT" else int(one) for one in column.choices]
    if column.name in ("night", "date") and column.type == "TEXT":
        its.update(_DATE)
    return {"anyOf": [its, {"type": "null"}]} if column.may_be_empty else its


def text() -> str:
    """The file's text."""
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8", newline="\n")
