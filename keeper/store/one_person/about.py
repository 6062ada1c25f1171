"""A line about a person, and the photos they are on."""

from datetime import date

from keeper.store.file.opening import Store
from keeper.store.moments import day, words


def about(store: Store, person_id: str) -> str:
    """The line about somebody, "" for none."""
    row = store.row("SELECT about FROM person_about WHERE person_id = ?", (person_id,))
    return words(row[0]) if row else ""


def every(store: Store) -> dict[str, str]:
    """The line about each person that has one, by the person's id."""
    return dict(store.made(lambda row: (row[0], words(row[1])), store.rows("SELECT person_id, about FROM person_about")))


def keep(store: Store, person_id: str, text: str) -> None:
    """Write the line about somebody anew; "" takes it out."""
    with store.writing() as connection:
        if not text:
            connection.execute("DELETE FROM person_about WHERE person_id = ?", (person_id,))
            return
        connection.execute(
            "INSERT INTO person_about (person_id, about) VALUES (?, ?) "
            "ON CONFLICT (person_id) DO UPDATE SET about = excluded.about",
            (person_id, text),
        )


def on_photo(store: Store, photo_id: str) -> frozenset[str]:
    """The ids of the people who are marked on a photo."""
    return frozenset(row[0] for row in store.rows("SELECT person_id FROM photo_person WHERE photo_id = ?", (photo_id,)))


def mark(store: Store, photo_id: str, person_id: str, on: bool) -> None:
    """Say that somebody is on a photo, or that they are not."""
    with store.writing() as connection:
        sql = ("INSERT OR IGNORE INTO photo_person (photo_id, person_id) VALUES (?, ?)" if on
               else "DELETE FROM photo_person WHERE photo_id = ? AND person_id = ?")  # fmt: skip
        connection.execute(sql, (photo_id, person_id))


def photo_nights(store: Store, person_id: str) -> tuple[tuple[str, date], ...]:
    """The photos somebody is marked on, each with its last night, newest first; those of no night are left out."""
    rows = store.rows(
        "SELECT photo_person.photo_id, max(night) FROM photo_person JOIN night_photo USING (photo_id) "
        "WHERE person_id = ? GROUP BY photo_person.photo_id ORDER BY max(night) DESC, photo_person.photo_id",
        (person_id,),
    )
    return store.made(lambda row: (words(row[0]), day(row[1])), rows)


def captioned(store: Store) -> tuple[tuple[str, str, date], ...]:
    """Photos with a caption: id, caption and last night."""
    rows = store.rows(
        "SELECT photo.id, caption, max(night) FROM photo JOIN night_photo ON photo_id = photo.id "
        "WHERE caption <> '' GROUP BY photo.id"
    )
    return store.made(lambda row: (words(row[0]), words(row[1]), day(row[2])), rows)
