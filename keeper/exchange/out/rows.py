"""The tables of a keeper as one JSON document (RFC 8259), a row of a table on a row of text.

    {"format": ..., "version": 1, "schema": 17, "whole": true, "tables": {"line": [{...}, ...], ...}}
"""

import base64
import json
from collections.abc import Iterable, Sequence
from itertools import chain, islice

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
        one = "{" + ", ".join(f"{json.dumps(column, ensure_ascii=False).replace('%', '%%')}: %s" for column in columns) + "}"
        while some := list(islice(waiting, _AT_ONCE)):
            self._out.write(between + ",\n".join([one] * len(some)) % self._told(some))
            between = ",\n"
            many += len(some)
        self._out.write("\n]" if many else "]")
        return many

    def _told(self, some: list[Sequence[object]]) -> tuple[str, ...]:
        # One call for all values of many rows: it costs a third of a call a row. No text of
        # JSON holds the sign by which the ends of values are found again.
        return tuple(self._encode(list(chain.from_iterable(some)))[1:-1].split(_BETWEEN))

    def end(self) -> None:
        """After the last table."""
        self._out.write("\n}\n}\n")


def _bytes(value: object) -> dict[str, str]:
    if not isinstance(value, bytes):
        raise TypeError(f"JSON has no {type(value).__name__}")
    return {"base64": base64.b64encode(value).decode("ascii")}
