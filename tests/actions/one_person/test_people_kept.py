"""What is kept of people besides their names: undone and done again, given and received, carved, at rest."""

from datetime import date

import pytest
from broken_keepers import PAGE, mended
from sample_pictures import quarters, save
from whole_keeper import content

from keeper.actions import people
from keeper.actions.awake import awake
from keeper.actions.damage.telling import told
from keeper.actions.giving import making, taking
from keeper.actions.giving.wanted import ToGive
from keeper.actions.history import undoing
from keeper.actions.one_person import cards, cards_looked, cards_told, days, page, photos, tonight
from keeper.actions.opening import open_or_begin
from keeper.actions.photos import kept as kept_photos
from keeper.actions.writing import write_line
from keeper.dates.calendars import GREGORIAN
from keeper.errors import UnknownThing, UnreadableDate, UnreadableFile, UnreadableText
from keeper.model.people import BIRTHDAY
from keeper.store import open_store
from keeper.store.file.folder import FILE
from keeper.store.one_person import days as kept_days
from keeper.store.photos import known as known_photos

TONIGHT = date(2026, 11, 14)


@pytest.fixture
def ilze(store, clock, tmp_path):
    """Somebody with a line, a day, a line about them, and a photo they are on."""
    write_line(store, TONIGHT, "memory", "Tea with Ilze and Oddny", clock)
    one = people.add(store, "Ilze")
    photo = kept_photos.take_in(store, save(tmp_path / "one.jpg", quarters(40, 32)), clock, TONIGHT).photo
    days.describe(store, one.id, "  My sister ")
    days.tell(store, days.remember(store, one.id, "", "29 February 1960", TONIGHT).id, True)
    days.remember(store, one.id, "Name day", "5 Farvardin 1360", TONIGHT, calendar="Persian")
    photos.mark(store, photo.id, one.id, True)
    return one


def test_each_act_is_undone_and_done_again(store, ilze):
    (birthday, name_day) = kept_days.of_person(store, ilze.id)
    acts = (
        lambda: days.describe(store, ilze.id, ""), lambda: days.tell(store, birthday.id, False),
        lambda: days.fall_after(store, birthday.id, True), lambda: days.take_out(store, name_day.id),
        lambda: photos.mark(store, known_photos.by_id(store, page.photos_of(store, ilze.id, 1)[0][0].id).id, ilze.id, False),
        lambda: days.remember(store, ilze.id, "birthday", "1 March", TONIGHT), lambda: people.take_out(store, ilze.id),
    )  # fmt: skip
    for act in acts:
        before = content(store)
        act()
        after = content(store)
        assert after != before
        undoing.undo(store)
        assert content(store) == before
        undoing.redo(store)
        assert content(store) == after
    assert content(store)["person_day"] == content(store)["person_about"] == content(store)["photo_person"] == []


def test_a_birthday_takes_the_place_of_the_one_there_and_stays_told(store, ilze):
    days.remember(store, ilze.id, "Birthday", "1 March", TONIGHT)
    birthday, _ = kept_days.of_person(store, ilze.id)
    assert (birthday.what, birthday.month, birthday.day, birthday.year, birthday.told) == (BIRTHDAY, 3, 1, None, True)


def test_what_is_no_day_changes_nothing(store, ilze):
    before = content(store)
    for typed, calendar, error in (("30 February", GREGORIAN, UnreadableDate), ("March", GREGORIAN, UnreadableDate),
                                   ("31.1.1400", "Islamic, civil", UnreadableDate), ("hello", "Hebrew", UnreadableDate)):  # fmt: skip
        with pytest.raises(error):
            days.remember(store, ilze.id, "", typed, TONIGHT, calendar=calendar)
    with pytest.raises(UnreadableText):
        days.remember(store, ilze.id, "x" * 101, "1 March", TONIGHT)
    with pytest.raises(UnknownThing):
        days.remember(store, "nobody", "", "1 March", TONIGHT)
    with pytest.raises(UnreadableText):
        days.describe(store, ilze.id, "x" * 2001)
    assert content(store) == before


def test_days_are_told_on_their_morning_and_in_the_week_before_if_wished(store, ilze):
    told = {night: tonight.told(store, date(2027, *night)).line for night in ((2, 20), (2, 21), (2, 27), (2, 28), (3, 1))}
    assert told == {(2, 20): "", (2, 21): "Sun 28 Feb: birthday of Ilze, 67 years", (2, 27): "Tomorrow: birthday of Ilze, 67 years",
                    (2, 28): "Today: birthday of Ilze, 67 years", (3, 1): ""}  # fmt: skip
    assert tonight.told(store, date(2028, 2, 29)).line == "Today: birthday of Ilze, 68 years"
    days.fall_after(store, kept_days.of_person(store, ilze.id)[0].id, True)
    assert tonight.told(store, date(2027, 3, 1)).line == "Today: birthday of Ilze, 67 years"
    assert tonight.told(store, date(2027, 3, 22)).line == ""
    people.rest(store, ilze.id)
    assert tonight.told(store, date(2027, 3, 1)) == tonight.DaysTold()


def test_who_rests_is_not_brought_up_by_a_photo_they_are_on_nor_by_name(store, ilze):
    ((photo, _),) = page.photos_of(store, ilze.id, 6)
    people.add(store, "Oddny")
    assert [one.names[0] for one in page.named_in(store, ["Tea with Ilze and Oddny"])] == ["Ilze", "Oddny"]
    assert awake(store).photo(photo, [TONIGHT])
    people.rest(store, ilze.id)
    assert not awake(store).photo(photo, [TONIGHT])
    assert [one.names[0] for one in page.named_in(store, ["Tea with Ilze and Oddny"])] == ["Oddny"]
    # Who asks for them has asked.
    assert page.photos_of(store, ilze.id, 6) and page.person_page(store, ilze.id).numbers
    assert page.around(store, people.named(store, "Oddny").id).together == ()


def test_all_of_it_goes_out_and_comes_in_again(store, ilze, clock, tmp_path):
    making.give(store, tmp_path / "given", ToGive(), clock)
    rows = (tmp_path / "given" / "data" / "tables" / "days-to-remember.csv").read_text("utf-8").splitlines()
    assert [row.split(",")[:6] for row in rows[1:]] == [
        ["Ilze", "birthday", "2", "29", "1960", ""], ["Ilze", "Name day", "3", "25", "1981", '"5 Farvardin 1360'],
    ]  # fmt: skip
    assert ",My sister," in (tmp_path / "given" / "data" / "tables" / "people.csv").read_text("utf-8")
    with open_or_begin(tmp_path / "other") as other:
        taking.take(other, tmp_path / "given", clock)
        for table in ("person", "person_about", "person_day", "photo_person"):
            assert content(other)[table] == content(store)[table] != []


def test_what_rests_is_held_back_with_its_days(store, ilze, clock, tmp_path):
    oddny = people.add(store, "Oddny")
    days.remember(store, oddny.id, "", "3 June", TONIGHT)
    people.rest(store, ilze.id)
    making.give(store, tmp_path / "given", ToGive(resting=False), clock)
    tables = (tmp_path / "given" / "data" / "tables").glob("*.csv")
    assert not any(word in table.read_text("utf-8") for table in tables for word in ("Ilze", "My sister", "Name day"))
    with open_or_begin(tmp_path / "other") as other:
        taking.take(other, tmp_path / "given", clock)
        assert [one.person.name for one in people.every(other)] == ["Oddny"] and len(kept_days.every(other)) == 1


def test_cards_go_out_and_come_in_once(store, ilze, clock, tmp_path):
    oddny = people.add(store, "Oddny")
    days.remember(store, oddny.id, "", "3 June", TONIGHT)
    for name in ("all.vcf", "all.ics"):
        assert cards.give(store, tmp_path / name, clock) == f"3 days of 2 people are in {name}."
        looked = cards_looked.look(store, tmp_path / name, TONIGHT)
        assert not looked.chosen(True) and cards_told.would_bring(looked)[0] == "It would bring nothing."
        with open_or_begin(tmp_path / f"other {name}") as other:
            looked = cards_looked.look(other, tmp_path / name, TONIGHT)
            assert not looked.chosen(False) and len(looked.left()) == 2
            assert cards.keep(other, looked, everybody=True) == 2
            there = {(one.what, one.month, one.day, one.year) for one in kept_days.every(other)}
            assert there == {(one.what, one.month, one.day, one.year) for one in kept_days.every(store)}
            undoing.undo(other)
            assert people.every(other) == () and kept_days.every(other) == ()


def test_what_differs_stays_and_a_year_that_was_not_known_is_filled(store, ilze, tmp_path):
    oddny = people.add(store, "Oddny")
    days.remember(store, oddny.id, "", "3 June", TONIGHT)
    file = tmp_path / "cards.vcf"
    file.write_text("BEGIN:VCARD\nFN:Ilze Kalna\nN:Kalna;Ilze;;;\nBDAY:19600301\nEND:VCARD\n"
                    "BEGIN:VCARD\nFN:Oddny\nBDAY:19710603\nEND:VCARD\n", encoding="utf-8")  # fmt: skip
    looked = cards_looked.look(store, file, TONIGHT)
    told = cards_told.would_bring(looked)
    assert "Ilze: the birthday here, 29 February 1960, stays; the file says 1 March 1960." in told
    assert cards.keep(store, looked) == 1
    assert kept_days.of_person(store, oddny.id)[0].year == 1971 and kept_days.of_person(store, ilze.id)[0].month == 2


def test_giving_without_a_day_or_to_another_ending_is_told(store, clock, tmp_path):
    with pytest.raises(UnknownThing, match="nothing to give"):
        cards.give(store, tmp_path / "x.vcf", clock)
    with pytest.raises(UnreadableFile, match=r"ends in \.vcf"):
        cards.give(store, tmp_path / "x.pdf", clock)
    file = tmp_path / "x.vcf"
    file.write_text("BEGIN:VCALENDAR\nEND:VCALENDAR\n")
    with pytest.raises(UnreadableFile, match="no card and no event"):
        cards_looked.look(store, file, TONIGHT)


@pytest.mark.parametrize("lost", ["the head", "line", "person"])
def test_of_a_broken_file_days_and_the_line_about_somebody_come_back(store, ilze, lost):
    kept = {table: content(store)[table] for table in ("person", "person_about", "person_day")}
    root = store.row("SELECT rootpage FROM sqlite_schema WHERE name = ?", (lost,))
    store.close()
    file = store.folder / FILE
    data = bytearray(file.read_bytes())
    # "Database File Format", 1.3: the head is of 100 bytes; of a table its first page is put to zeros.
    begin, long = ((root[0] - 1) * PAGE, PAGE) if root else (0, 100)
    data[begin : begin + long] = bytes(long)
    file.write_bytes(data)
    survey, made = mended(store.folder)
    assert [one for one in made.tables if one.lost] == []
    with open_store(store.folder) as there:
        found = {table: content(there)[table] for table in kept}
    if lost == "person":
        # Without the name there are still the day and the words; that names are gone is told.
        assert told(survey).lacking[-1] == "Not all could be read of: people."
        kept["person"] = [(ilze.id, "Somebody")]
    assert found == kept
