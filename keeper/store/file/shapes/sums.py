"""A sum with each line and each earlier wording, by which damage is known."""

import re

from sqlite_utils import Database

from keeper.store.file.sums import line_sum

# What triggers set aside has the sum that stood with the line.
_SET_ASIDE = re.compile(r"(INSERT INTO wording \([^)]*\bzone)(\)\s*(?:VALUES \(|SELECT )[^)]*?\bold\.zone)")


def add_sums(db: Database) -> None:
    """Give each line its sum, and each earlier wording that of the line it was."""
    db.conn.create_function("sum_of_line", 7, _sum_or_none, deterministic=True)
    for table, its_id in (("line", "id"), ("wording", "line_id")):
        db.execute(f"ALTER TABLE {table} ADD COLUMN sum INTEGER")
        columns = (its_id, "night", "kind", "text", "written_at", "offset_minutes", "zone")
        # As bytes: what is no text any more must not stop the upgrade.
        values = ", ".join(f"CAST({column} AS BLOB)" for column in columns)
        db.execute(f"UPDATE {table} SET sum = sum_of_line({values})")
    db.conn.create_function("sum_of_line", 7, None)
    for name, sql in db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall():
        if (with_sum := _SET_ASIDE.sub(r"\1, sum\2, old.sum", sql)) != sql:
            db.execute(f"DROP TRIGGER {name}")
            db.execute(with_sum)


def _sum_or_none(*columns: bytes | None) -> int | None:
    if None in columns:
        return None
    try:
        texts = [column.decode() for column in columns]
        return line_sum(*texts[:5], int(texts[5]), texts[6])
    except ValueError:
        return None
