"""A row from elsewhere meets the rows that are here: it is new, the same, or differs; and what becomes of it then.

What stands here stays. Words that differ are kept beside it: of a line as an
earlier wording, of all else in ``second_wording``. Of lines the person may
have chosen the others; then those that stood here are the earlier wording. An
empty cell is filled. Ids last, so what came once is known when it comes again.
"""

import json
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date

from keeper.errors import BadArchive
from keeper.model import LineKind, kind_title
from keeper.store import kinds
from keeper.store.file.opening import Store
from keeper.store.file.sums import line_sum
from keeper.store.folding import folded_or_none
from keeper.store.moments import NUMBERS_A_NIGHT, day, line_number
from keeper.store.rows import files
from keeper.store.rows.checked import Row, checked
from keeper.store.rows.shape import TableShape, tables
from keeper.store.rows.theirs import TheirIds

_NO_DIFFERENCE = frozenset((
    "position", "mark", "at", "begun_at", "noted_at", "came_at", "typed_at", "decided_at", "answered_at", "number", "sure", "terms",
    "base_terms", "since", "closeness", "theme", "place_source", "taken_back_at", "key",
))  # fmt: skip
"""Columns in which two keepers may differ without either saying anything else."""

_HERE = ("night", "line", "place", "tracker", "month_page", "year_page", "person", "wording", "draft", "photo")
"""Of a keeper that has nothing of these, nothing was kept yet."""


@dataclass(frozen=True, slots=True)
class Difference:
    """What a keeper has otherwise than an archive.

    ``night`` is None for what belongs to none; ``what`` is told to the person;
    ``kind`` is a line's, "" for all else.
    """

    night: date | None
    what: str
    here: str
    there: str
    kind: str = ""


@dataclass
class Meeting:
    """Takes rows in, within a transaction of the caller's; with ``only_look`` it only finds out what would come.

    ``chosen`` are the lines, by night and kind, of which the archive's words
    are to stand. ``have`` are the SHA-256 of the photos whose files are, or
    will be, in the keeper. ``now`` is the moment, as ``utc_text`` spells it.
    """

    store: Store
    now: str
    have: frozenset[str] = frozenset()
    chosen: frozenset[tuple[date, str]] = frozenset()
    only_look: bool = False
    new: Counter = field(default_factory=Counter)
    same: Counter = field(default_factory=Counter)
    differences: list[Difference] = field(default_factory=list)
    without_file: int = 0
    nights: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.shapes: Mapping[str, TableShape] = {table.name: table for table in tables(self.store)}
        self._of_files = files.names(self.store)
        self._kinds = {one.key: one for one in kinds.every(self.store)}
        # A keeper just begun becomes what the archive holds.
        self.empty = not any(self.store.row(f"SELECT 1 FROM {table} LIMIT 1") for table in _HERE)
        self.ids = TheirIds(self.store, self.empty)
        self._special = {"kind": self._kind, "line": self._line, "wording": self._wording, "photo": self._photo, "night": self._night}

    def row(self, table: str, row: Row) -> None:
        """Take one row in. Raises BadArchive for one that no keeper has written."""
        shape = self.shapes.get(table)
        if shape is None:
            return
        found = checked(shape, row)
        if not found or self._is_of_a_photo_that_is_not_there(table, found):
            return
        special = self._special.get(table)
        if special:
            special(shape, found)
            return
        found = self.ids.ours(table, found)
        if found is not None:
            self._any(shape, found)

    def _is_of_a_photo_that_is_not_there(self, table: str, row: Row) -> bool:
        if table in self._of_files and row["sha256"] not in self.have:
            self.without_file += 1
            return True
        if row.get("photo_id") in self.ids.lost_photos:
            row["photo_id"] = None
            return table in ("night_photo", "lot_photo")
        return row.get("what") == "photo" and row.get("ref") in self.ids.lost_photos

    # lines and their wordings

    def _line(self, shape: TableShape, row: Row) -> None:
        kind = self._kinds.get(row["kind"])
        if kind is None:
            raise BadArchive(f"The archive cannot be taken in: it has a line of a kind that it does not tell of, {str(row['kind'])[:40]!r}.")
        night = day(row["night"])
        number = line_number(night, kind.number)
        there = self.store.row("SELECT id, text FROM line WHERE number = ?", (number,))
        if there is None and (moved := self.store.row("SELECT night, text FROM line WHERE id = ?", (row["id"],))):
            # It was moved here, or there: what it says where it is not is an earlier wording there.
            self._differ(night, kind_title(kind.key, kind.name), f"{moved[1]} ({moved[0]})", row["text"])
            self._add_wording({**row, "line_id": row["id"]})
        elif there is None:
            self.new["line"] += 1
            self._put_line(number, row)
        else:
            self.ids.lines[row["id"]] = there[0]
            self._meets_line(number, kind_title(kind.key, kind.name), night, there, row)

    def _meets_line(self, number: int, title: str, night: date, there: tuple, row: Row) -> None:
        if there[1] == row["text"]:
            self.same["line"] += 1
            return
        self._differ(night, title, there[1], row["text"], row["kind"])
        if (night, row["kind"]) not in self.chosen:
            self._add_wording({**row, "line_id": there[0]})
        elif not self.only_look:
            told = (row["text"], row["written_at"], row["offset_minutes"], row["zone"])
            self.store.connection.execute(
                "UPDATE line SET text = ?, written_at = ?, offset_minutes = ?, zone = ?, folded = ?, sum = ? WHERE number = ?",
                (*told, folded_or_none(row["text"]), line_sum(there[0], row["night"], row["kind"], *told), number),
            )

    def _put_line(self, number: int, row: Row) -> None:
        told = tuple(row[name] for name in ("id", "night", "kind", "text", "written_at", "offset_minutes", "zone"))
        self._insert("line", {**row, "number": number, "folded": folded_or_none(row["text"]), "sum": line_sum(*told)})

    def _wording(self, shape: TableShape, row: Row) -> None:
        row["line_id"] = self.ids.lines.get(row["line_id"], row["line_id"])
        known = self.store.row("SELECT 1 FROM wording WHERE id = ?", (row.get("id"),)) is not None
        (self.same if known or not self._add_wording(row) else self.new)["wording"] += 1

    def _add_wording(self, row: Row) -> bool:
        """Let it be an earlier wording; whether there was none that said so."""
        said = tuple(row[name] for name in ("night", "kind", "text", "written_at"))
        known = "SELECT 1 FROM wording WHERE night = ? AND kind = ? AND text = ? AND written_at = ?"
        if not self.empty and self.store.row(known, said):
            return False
        told = tuple(row[name] for name in ("line_id", "night", "kind", "text", "written_at", "offset_minutes", "zone"))
        names = ("line_id", "night", "kind", "text", "written_at", "offset_minutes", "zone")
        whole = dict(zip(names, told, strict=True)) | {"replaced_at": row.get("replaced_at", self.now), "sum": line_sum(*told)}
        if "replaced_at" in row and "id" in row:
            whole["id"] = row["id"]
        self._insert("wording", whole)
        return True

    # others with a way of their own

    def _kind(self, shape: TableShape, row: Row) -> None:
        if row["key"] not in self._kinds:
            number = row["number"]
            taken = {one.number for one in self._kinds.values()}
            if number in taken or number < 3:
                number = max(taken) + 1
            if number >= NUMBERS_A_NIGHT:
                raise BadArchive("The archive cannot be taken in: this keeper has had as many kinds of line as there is room for.")
            row = {**row, "number": number}
            self._insert("kind", row)
            self.new["kind"] += 1
            self._kinds[row["key"]] = LineKind(row["key"], number, row.get("name") or "")
            return
        self._any(shape, {**row, "number": self._kinds[row["key"]].number})

    def _photo(self, shape: TableShape, row: Row) -> None:
        known = self.store.row("SELECT id FROM photo WHERE sha256 = ?", (row["sha256"],))
        if known:
            self.ids.photos[row["id"]] = known[0]
        elif row["sha256"] not in self.have:
            self.ids.lost_photos.add(row["id"])
            self.without_file += 1
            return
        self._any(shape, {**row, "id": known[0] if known else row["id"]})

    def _night(self, shape: TableShape, row: Row) -> None:
        row = self.ids.ours("night", row) or row
        here = self.store.row("SELECT place_id FROM night WHERE date = ?", (row["date"],))
        if here is None:
            self.nights.add(row["date"])
        elif here[0] is None and row.get("place_id") and not self.only_look and not self.empty:
            # Where it was, and how that came, belong together.
            self.store.connection.execute(
                "UPDATE night SET place_id = ?, place_source = ? WHERE date = ?", (row["place_id"], row["place_source"], row["date"])
            )
        self._any(shape, row)

    # any row

    def _any(self, shape: TableShape, row: Row) -> None:
        where = " AND ".join(f'"{name}" = ?' for name in shape.key)
        key = [row.get(name) for name in shape.key]
        names = [column for column in shape.names if column in row]
        there = self.store.row(f'SELECT {", ".join(_quoted(names))} FROM "{shape.name}" WHERE {where}', key)
        if there is None:
            self.new[shape.name] += 1
            self._insert(shape.name, row)
            return
        here = dict(zip(names, there, strict=True))
        sets = self._to_change(shape, key, here, row)
        if sets and not self.only_look:
            changed = ", ".join(f'"{name}" = ?' for name in sets)
            self.store.connection.execute(f'UPDATE "{shape.name}" SET {changed} WHERE {where}', [*sets.values(), *key])

    def _to_change(self, shape: TableShape, key: list, here: Row, row: Row) -> Row:
        differing = {name: row[name] for name in here if row[name] != here[name]}
        if self.empty:
            return differing
        filled: Row = {}
        told = {name: value for name, value in differing.items() if name not in _NO_DIFFERENCE and value not in (None, "")}
        for name, value in told.items():
            if here[name] in (None, ""):
                filled[name] = value
            else:
                self._keep_beside(shape, key, name, here[name], value, row)
        self.same[shape.name] += not told
        return filled

    def _keep_beside(self, shape: TableShape, key: list, name: str, here: object, there: object, row: Row) -> None:
        if shape.name == "setting":
            return
        night = row.get("night") or row.get("date")
        what, seen, other = self.ids.told(shape.name, name, row, here, there)
        self._differ(day(night) if night else None, what, seen, other)
        self._insert("second_wording", {
            "what": shape.name, "ref": json.dumps(key, ensure_ascii=False), "name": name, "text": str(there), "came_at": self.now,
        })  # fmt: skip

    def _differ(self, night: date | None, what: str, here: str, there: str, kind: str = "") -> None:
        self.differences.append(Difference(night, what, str(here), str(there), kind))

    def _insert(self, table: str, row: Row) -> None:
        if self.only_look:
            return
        names = ", ".join(_quoted(row))
        marks = ", ".join("?" * len(row))
        # What is there twice in an archive, or stands here by another key, is there.
        self.store.connection.execute(
            f'INSERT INTO "{table}" ({names}) VALUES ({marks}) ON CONFLICT DO NOTHING', tuple(row.values())
        )


def _quoted(names: Iterable[str]) -> list[str]:
    return [f'"{name}"' for name in names]
