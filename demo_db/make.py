"""Makes the demo keeper: ``python -m demo_db.make`` from the checkout.

Reads ``demo_db/lines``, draws the pictures, makes up the readings and writes
``demo_db/keeper`` anew. The same seed and text give the same keeper.
"""

import argparse
import random
import re
import shutil
import tempfile
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path

from demo_db import evenings, prose, readings, towns
from demo_db.still import Pretence, held_still
from keeper.days import last_of_month
from keeper.model import KINDS, Goal, Moment, MonthPage, Person, Photo, Reading
from keeper.store import Store, create_store, lines, month_pages, nights, open_store, people, resting, trackers

# Brought in late elsewhere, and only what is there can be held still.
from keeper.store.file import beginning  # noqa: F401
from keeper.store.file.opening import FILE
from keeper.store.history.letting_go import let_go_old
from keeper.store.ids import shaped
from keeper.store.moments import utc_text
from keeper.store.photos import known as photos
from keeper.store.photos.files import PHOTOS, relative_file
from keeper.store.places import named as places

HERE = Path(__file__).resolve().parent
SEED = 1971
BEGUN = datetime(2023, 5, 1, 19, 5, tzinfo=UTC)

TOUCHED_UP = 9
"""How many lines have an earlier wording: first one sentence, later two."""

RESTING_NIGHTS = (date(2024, 12, 9), date(2024, 12, 10))
"""The old master's death: kept, found, never brought up unasked."""

PEOPLE = (
    "Maren", "Henning", "Frau Petersen", "Mrs Halvorsen", "Oddny", "Teodor", "Ilze", "Pauli", "Agnieszka", "Mr Lowrie",
    "Jurgis", "Sister Birgitta", "Niels", "Doctor Ekström",
)  # fmt: skip
"""Whose names are marked."""

Picture = Callable[[prose.ToldNight, str], tuple[bytes, Photo]]
"""What gives the picture of a night and its time zone: the file, and what is known of it."""


def build(folder: Path, picture: Picture) -> None:
    """Make the demo keeper in a folder that has none yet. Raises ProseError."""
    told = prose.read_all(HERE / "lines", frozenset(towns.BY_NAME))
    pretence = Pretence(SEED, BEGUN)
    with held_still(pretence):
        with create_store(folder) as store, store.writing():
            _Maker(store, pretence, picture).keep(told)
        _finish(folder, pretence.chance)


class _Maker:
    """Puts what was told into the store, day by day, as the person would have."""

    def __init__(self, store: Store, pretence: Pretence, picture: Picture) -> None:
        self.store, self.pretence, self.picture = store, pretence, picture
        self.chance = random.Random(f"{SEED} evenings")
        self.place = ""
        self.photo_ids: dict[date, str] = {}

    def keep(self, told: list[prose.ToldMonth]) -> None:
        """Everything, oldest first."""
        told_nights = [night for month in told for night in month.nights]
        self.place_ids = {place.name: places.add(self.store, place).id for place in towns.PLACES}
        self.tracker_ids = {one.name: trackers.add(self.store, one) for one in readings.TRACKERS}
        self.touched_up = _to_touch_up(told_nights)
        zones, zone = evenings.zones(told_nights), ""
        for day in readings.days(told_nights, SEED):
            zone = zones.get(day.date, zone)
            self._day(day, evenings.first_moment(day.date, zone, self.chance))
        for month in told:
            self._month(month)
        self._people()

    def _people(self) -> None:
        # Ids of their own chance, so that one name more changes no other id.
        chance = random.Random(f"{SEED} people")
        for name in PEOPLE:
            people.add(self.store, Person(shaped(self.pretence.milliseconds(), chance.randbytes(10)), name))

    def _day(self, day: readings.Day, moment: Moment) -> None:
        self.pretence.at = moment.utc
        if day.told or day.noted:
            self._set_place(day, moment)
        if day.told:
            self._lines(day.told, moment)
        if day.told and day.told.motif:
            self._photo(day.told, moment.zone)
        self._note(day, moment)

    def _set_place(self, day: readings.Day, moment: Moment) -> None:
        source = "carried" if day.place == self.place else "said"
        self.place = day.place
        nights.set_place(self.store, day.date, self.place_ids[day.place], source, utc_text(moment.utc))

    def _lines(self, night: prose.ToldNight, moment: Moment) -> None:
        for kind in sorted(night.lines, key=KINDS.index):
            text = night.lines[kind]
            if (night.date, kind) in self.touched_up:
                lines.keep(self.store, night.date, kind, _first_sentence(text), moment)
                moment = evenings.later(moment, self.chance.uniform(60, 400))
            lines.keep(self.store, night.date, kind, text, moment)
            if night.date in RESTING_NIGHTS:
                resting.rest(self.store, "line", lines.of_night(self.store, night.date)[-1].id)
            moment = evenings.later(moment, self.chance.uniform(35, 210))

    def _photo(self, night: prose.ToldNight, zone: str) -> None:
        data, drawn = self.picture(night, zone)
        photo = photos.add(self.store, replace(drawn, caption=night.caption))
        file = photos.file_of(self.store, photo)
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(data)
        photos.set_photo_of_night(self.store, night.date, photo.id)
        self.photo_ids[night.date] = photo.id

    def _note(self, day: readings.Day, moment: Moment) -> None:
        for name, value in day.noted.items():
            self.pretence.at = moment.utc + readings.noted_later(name)
            trackers.note(self.store, [Reading(day.date, self.tracker_ids[name], value)])

    def _month(self, told: prose.ToldMonth) -> None:
        # A month's page is filled in on its last evening.
        self.pretence.at = datetime.combine(last_of_month(told.month), time(20), UTC)
        goals = tuple(Goal("", *goal) for goal in told.goals)
        photo_id = self.photo_ids[told.month.replace(day=told.chosen)]
        month_pages.keep(self.store, MonthPage(told.month, told.question, told.words, photo_id, goals))


def _to_touch_up(told: list[prose.ToldNight]) -> set[tuple[date, str]]:
    able = [
        (night.date, kind)
        for night in told
        for kind, text in night.lines.items()
        if 20 < len(_first_sentence(text)) < len(text) - 20
    ]
    return set(random.Random(f"{SEED} wordings").sample(able, TOUCHED_UP))


def _first_sentence(text: str) -> str:
    return re.split(r"(?<=[a-z]\.) (?=[A-Z])", text)[0]


def _finish(folder: Path, chance: random.Random) -> None:
    """Take out what still tells the real time, then make one sound, small file of it."""
    with open_store(folder) as store:
        with store.writing() as connection:
            _hold_still_what_sql_stamped(connection, chance)
            connection.execute("INSERT INTO line_words (line_words) VALUES ('optimize')")
        # It was made, not lived: nobody did any of it.
        assert list(let_go_old(store, timedelta(-1))) == []
        store.row("PRAGMA wal_checkpoint(TRUNCATE)")
        store.rows("VACUUM")
        store.row("PRAGMA wal_checkpoint(TRUNCATE)")
        assert store.rows("PRAGMA integrity_check") == [("ok",)]
        assert store.rows("PRAGMA foreign_key_check") == []
    (folder / "backups").rmdir()


def _hold_still_what_sql_stamped(connection, chance: random.Random) -> None:
    # Two columns are stamped by SQL itself, out of the pretence's reach, and
    # sqlite-utils stamps the migrations.
    connection.execute("UPDATE _sqlite_migrations SET applied_at = ?", (str(BEGUN),))
    connection.execute("UPDATE wording SET replaced_at = (SELECT written_at FROM line WHERE line.id = wording.line_id)")
    for (number,) in connection.execute("SELECT rowid FROM wording ORDER BY night, kind").fetchall():
        connection.execute("UPDATE wording SET id = ? WHERE rowid = ?", (chance.randbytes(16).hex(), number))


def kept_pictures(folder: Path, otherwise: Picture) -> Picture:
    """Gives the pictures that a demo keeper already has; draws those it has not."""
    kept: dict[tuple[date, str], Photo] = {}
    # Looked at in a copy, so that no journal is left beside the shipped file.
    with tempfile.TemporaryDirectory() as aside:
        shutil.copy(folder / FILE, aside)
        with open_store(Path(aside)) as store:
            for photo in photos.every(store):
                kept[photos.nights_of(store, photo.id)[0], photo.caption] = replace(photo, id="")

    def picture(night: prose.ToldNight, zone: str) -> tuple[bytes, Photo]:
        photo = kept.get((night.date, night.caption))
        if photo is None:
            return otherwise(night, zone)
        return (folder / PHOTOS / relative_file(photo.sha256, photo.ending)).read_bytes(), photo

    return picture


def draw(night: prose.ToldNight, zone: str) -> tuple[bytes, Photo]:
    """Draw the picture of a night."""
    # Pillow and numpy are wanted for drawing only.
    from demo_db import pictures

    return pictures.picture(night, zone, SEED)


def main() -> None:
    """Make ``demo_db/keeper`` anew, or another folder."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--into", type=Path, default=HERE / "keeper", help="the folder to replace")
    asked.add_argument("--draw", action="store_true", help="draw all pictures anew, also those already there")
    told = asked.parse_args()
    has_pictures = not told.draw and (HERE / "keeper" / FILE).exists()
    picture = kept_pictures(HERE / "keeper", draw) if has_pictures else draw
    with tempfile.TemporaryDirectory(dir=told.into.absolute().parent) as workshop:
        made = Path(workshop) / "keeper"
        build(made, picture)
        shutil.rmtree(told.into, ignore_errors=True)
        made.rename(told.into)


if __name__ == "__main__":
    main()
