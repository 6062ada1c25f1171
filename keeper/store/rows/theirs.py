"""What is called otherwise in another keeper: its ids and numbers, and those of the same things here."""

import json

from keeper.errors import BadArchive
from keeper.store.file.opening import Store
from keeper.store.rows.checked import Row, detail_of

_THEMES, _LINES = ("theme", "keep", "gone", "new"), ("line", "lines", "go", "stay")
"""Names in the details of a decision that stand for themes, and for lines."""

_ORDERED = frozenset(("theme_decision", "place_merge"))
"""Tables in which no two rows have the same position."""

_NAMES = {
    "month_page": "Month", "goal": "Goal", "photo": "Photo", "place": "Place", "place_page": "Place", "tracker": "Reading", "person": "Person",
    "year_answer": "Answer", "kind": "Kind of line", "theme": "Theme", "draft": "Words being typed", "draft_of": "Words being typed",
}  # fmt: skip


class TheirIds:
    """Ids of theirs that are others here; an id that is in none is the same in both."""

    def __init__(self, store: Store, empty: bool) -> None:
        self._store, self._empty = store, empty
        self.lines: dict[str, str] = {}
        self.photos: dict[str, str] = {}
        self.lost_photos: set[str] = set()
        self._themes: dict[int, int] = {}
        self._lots: dict[int, int] = {}
        self._shifted: dict[str, int] = {}
        self._called: dict[object, str] = {}
        self._marks = {mark for (mark,) in store.rows("SELECT mark FROM place WHERE mark IS NOT NULL")}
        self._given = dict.fromkeys(("theme", "lot"), -1)

    def ours(self, table: str, row: Row) -> Row | None:
        """The row as it would be here; None for one that is here in another way."""
        found = dict(row)
        for name, its in (("line_id", self.lines), ("photo_id", self.photos), ("theme", self._themes), ("lot", self._lots)):
            if found.get(name) in its:
                found[name] = its[found[name]]
        if "ref" in found and table in ("resting", "year_choice"):
            its = {"line": self.lines, "photo": self.photos}.get(found["what"], {})
            found["ref"] = its.get(found["ref"], found["ref"])
        way = {"theme": self._theme, "theme_decision": self._decision, "lot": self._lot, "resting": self._resting,
               "place": self._place, "place_merge": self._merge, "tracker": self._tracker, "night_photo": self._night_photo, "theme_line": self._theme_line,
               "theme_base": self._theme_line}.get(table)  # fmt: skip
        found = way(found) if way else found
        return self._in_order(table, found) if found and table in _ORDERED else found

    def _theme(self, row: Row) -> Row | None:
        known = self._store.row("SELECT number FROM theme WHERE id = ?", (row["id"],))
        number = self._numbered("theme", row["number"], known, self._themes)
        # Found again anyway: what is here stays.
        return None if known else {**row, "number": number}

    def _lot(self, row: Row) -> Row:
        known = None if self._empty else self._store.row("SELECT number FROM lot WHERE came_at = ?", (row["came_at"],))
        return {**row, "number": self._numbered("lot", row["number"], known, self._lots)}

    def _numbered(self, table: str, theirs: int, known: tuple | None, numbers: dict[int, int]) -> int:
        if known:
            ours = known[0]
        elif self._store.row(f"SELECT 1 FROM {table} WHERE number = ?", (theirs,)):
            # Given once more than any there, and than any given before.
            last = self._store.row(f"SELECT coalesce(max(number), 0) FROM {table}")[0]
            ours = max(last, self._given[table]) + 1
        else:
            ours = theirs
        self._given[table] = max(self._given[table], ours)
        numbers[theirs] = ours
        return ours

    def _theme_line(self, row: Row) -> Row | None:
        table = "theme_line" if "closeness" in row else "theme_base"
        known = self._store.row(f"SELECT 1 FROM {table} WHERE line_id = ?", (row["line_id"],))
        here = table == "theme_base" or self._store.row("SELECT 1 FROM line WHERE id = ?", (row["line_id"],))
        return row if here and not known else None

    def _merge(self, row: Row) -> Row:
        if not isinstance(detail_of(row, "gone").get("name"), str):
            raise BadArchive("The archive cannot be taken in: a place in it that became part of another has no name. Nothing was changed.")
        detail_of(row, "gave")
        return row

    def _decision(self, row: Row) -> Row:
        detail = detail_of(row, "detail")
        changed = {name: self._meant(name, value) for name, value in detail.items()}
        # As it was spelt, where nothing of it is another.
        return row if changed == detail else {**row, "detail": json.dumps(changed)}

    def _meant(self, name: str, value: object) -> object:
        if name in _THEMES and isinstance(value, int):
            return self._themes.get(value, value)
        if name in _LINES and isinstance(value, str):
            return self.lines.get(value, value)
        if name in _LINES and isinstance(value, list):
            return [self.lines.get(one, one) if isinstance(one, str) else one for one in value]
        return value

    def _in_order(self, table: str, row: Row) -> Row:
        if self._store.row(f"SELECT 1 FROM {table} WHERE id = ?", (row["id"],)):
            return row
        if table not in self._shifted:
            # All of theirs come after all that are here, in their own order.
            self._shifted[table] = self._store.row(f"SELECT coalesce(max(position), 0) FROM {table}")[0]
        return {**row, "position": row["position"] + self._shifted[table]}

    def _resting(self, row: Row) -> Row | None:
        if self._empty:
            return row
        if row["what"] == "span":
            known = self._store.row("SELECT 1 FROM resting WHERE what = 'span' AND first = ? AND last = ?", (row["first"], row["last"]))
        else:
            known = self._store.row("SELECT 1 FROM resting WHERE what = ? AND ref = ?", (row["what"], row["ref"]))
        return None if known else row

    def _place(self, row: Row) -> Row:
        self._called[row["id"]] = row["name"]
        # Its mark comes with its first night here, if another place had that one before.
        return {**row, "mark": None} if row.get("mark") in self._marks else row

    def _tracker(self, row: Row) -> Row:
        self._called[row["id"]] = row["name"]
        taken = row.get("key") and self._store.row(
            "SELECT 1 FROM tracker WHERE key = ? AND id <> ? AND ended IS NULL", (row["key"], row["id"])
        )
        return {**row, "key": ""} if taken and not row.get("ended") else row

    def _night_photo(self, row: Row) -> Row:
        there = self._store.row("SELECT photo_id FROM night_photo WHERE night = ? AND position = ?", (row["night"], row["position"]))
        if there is None or there[0] == row["photo_id"]:
            return row
        last = self._store.row("SELECT max(position) FROM night_photo WHERE night = ?", (row["night"],))[0]
        return {**row, "position": last + 1}

    def told(self, table: str, name: str, row: Row, here: object, there: object) -> tuple[str, str, str]:
        """What differs, told to the person, and how it is here and there."""
        if table == "night" and name == "place_id":
            return "Place", self._name("place", here), self._name("place", there)
        if table == "reading":
            what = self._name("tracker", row["tracker_id"])
            return what, *(f"{one:g}" if isinstance(one, float) else str(one) for one in (here, there))
        called = row.get("name") if table != "photo" and name != "name" else None
        about = row.get("month") or row.get("year") or called or ""
        return f"{_NAMES.get(table, table.replace('_', ' ').capitalize())}{f' {about}' if about else ''}: {name}", str(here), str(there)

    def _name(self, table: str, its_id: object) -> str:
        row = self._store.row(f"SELECT name FROM {table} WHERE id = ?", (its_id,))
        usual = "a place of the archive" if table == "place" else "something noted"
        return row[0] if row else self._called.get(its_id, usual)
