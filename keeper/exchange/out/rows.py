"""The tables of a keeper as one JSON document (RFC 8259), a row of a table on a row of text.

    {"format": ..., "version": 1, "schema": 17, "whole": true, "tables": {"line": [{...}, ...], ...}}
"""

import base64
import json
from collections.abc import Iterable, Sequence
from itertools import islice

from keeper.exchange.out.cells import Out

FORMAT, VERSION = "keeper of days", 1
"""What stands at its head; the version is raised when an older reader could not read it."""


_AT_ONCE, _BETWEEN = 500, ",\0"


class RowsOut:
    """A document under way: ``table`` after table, then ``end``."""

    def __init__(self, out: Out, schema: int, whole: bool) -> None:
        self._out, self._between = out, "\n"
        self._encode = json.JSONEncoder(ensure_ascii=False, allow_nan=False, separators=(_BETWEEN, ": "), default=_bytes).encode
        head = {"format": FORMAT, "version": VERSION, "schema": schema, "whole": whole}
        out.write("{\n" + "".join(f'"{name}": {json.dumps(value)},\n' for name, value in head.items()) + '"tables": {')

    def table(self, name: str, columns: Sequence[str], rows: Iterable[Sequence[object]]) -> int:
        """A table and its rows; how many there were."""
        self._out.write(f"{self._between}{json.dumps(name)}: [")
        self._between, between, many, waiting = ",\n", "\n", 0, iter(rows)
        while some := [dict(zip(columns, row, strict=True)) for row in islice(waiting, _AT_ONCE)]:
            self._out.write(between + self._told(some))
            between = ",\n"
            many += len(some)
        self._out.write("\n]" if many else "]")
        return many

    def _told(self, some: list[dict[str, object]]) -> str:
        # One call for many rows: it costs less by half. No text of JSON holds
        # the sign by which the ends of rows are found again.
        return self._encode(some)[1:-1].replace(f"}}{_BETWEEN}{{", "},\n{").replace(_BETWEEN, ", ")

    def end(self) -> None:
        """After the last table."""
        self._out.write("\n}\n}\n")


def _bytes(value: object) -> dict[str, str]:
    if not isinstance(value, bytes):
        raise TypeError(f"JSON has no {type(value).__name__}")
    return {"base64": base64.b64encode(value).decode("ascii")}
