"""What answers besides lines: what is said of places and of people."""

from datetime import date

from photographs import taken

from keeper.actions import people, writing
from keeper.actions.finding import Sought
from keeper.actions.finding.everywhere import Beside, everywhere
from keeper.actions.one_person import days
from keeper.actions.photos import kept
from keeper.actions.places import known as places
from keeper.actions.places import said
from keeper.actions.remembering import later
from keeper.model import MonthPage
from keeper.store import month_pages

TONIGHT = date(2026, 11, 14)


def told(store, typed, **narrowed) -> tuple[Beside, ...]:
    """What answers."""
    return everywhere(store, typed, TONIGHT, within=Sought(**narrowed))[0]


def test_a_note_on_a_place_and_a_line_about_somebody_answer_and_lead_there(store, clock):
    visby = writing.set_place(store, TONIGHT, "Visby", clock)
    said.write_note(store, visby.id, "The yellow house; the k\u00f6ster has the key.")
    agneta = people.add(store, "Agneta, Netta")
    days.describe(store, agneta.id, "Has the key of the church in Visby.")
    note = Beside("Note on Visby", "The yellow house; the k\u00f6ster has the key.", "places", thing=visby.id)
    line = Beside("About Agneta", "Has the key of the church in Visby.", "people", thing=agneta.id)
    assert told(store, "the key") == (note, line)
    assert told(store, "koster yel") == (note,)
    assert told(store, "church key") == (line,)
    assert told(store, "key harbour") == ()


def test_what_rests_answers_unless_it_is_left_aside(store, clock):
    visby = writing.set_place(store, TONIGHT, "Visby", clock)
    said.write_note(store, visby.id, "The yellow house.")
    agneta = people.add(store, "Agneta")
    days.describe(store, agneta.id, "From the yellow house.")
    places.rest_place(store, visby.id)
    assert [one.what for one in told(store, "yellow")] == ["Note on Visby", "About Agneta"]
    assert [one.what for one in told(store, "yellow", resting=False)] == ["About Agneta"]
    assert [one.what for one in told(store, "yellow", resting=True)] == ["Note on Visby"]


def whats(store, typed, **narrowed) -> list[str]:
    return [one.what for one in told(store, typed, **narrowed)]


def test_places_people_and_themes_answer_where_a_line_of_theirs_meets_what_narrows(store, clock):
    visby = writing.set_place(store, date(2025, 8, 9), "Visby", clock)
    writing.write_line(store, date(2025, 8, 9), "memory", "Visander at the harbour.", clock)
    visander = people.add(store, "Visander")
    assert whats(store, "vis") == ["Place", "Person"]
    assert whats(store, "vis", kinds=("memory",)) == whats(store, "vis", weekdays=(5,)) == ["Place", "Person"]
    assert whats(store, "vis", kinds=("gratitude",)) == whats(store, "vis", weekdays=(0,)) == []
    assert whats(store, "vis", last=date(2025, 8, 8)) == []
    assert whats(store, "vis", places=(visby.id,), people=(visander.id,)) == ["Place", "Person"]
    assert whats(store, "vis", places=("another",)) == []
    places.rest_place(store, visby.id)
    assert (whats(store, "vis", resting=True), whats(store, "vis", resting=False)) == (["Place"], ["Person"])


def test_what_is_of_a_month_is_narrowed_by_nights_and_seasons_and_else_left_out(store):
    with store.writing():
        month_pages.keep(store, MonthPage(date(2024, 6, 1), "", "Rain."))
    assert whats(store, "rain", first=date(2024, 6, 30)) == whats(store, "rain", months=(5, 6)) == ["Words of June 2024"]
    assert whats(store, "june 2024", last=date(2024, 6, 1)) == ["Month"] and whats(store, "2024", months=(1,)) == ["Year"]
    assert whats(store, "rain", last=date(2024, 5, 31)) == whats(store, "rain", months=(7,)) == []
    for narrowed in ({"weekdays": (0,)}, {"photo": True}, {"kinds": ("memory",)}, {"resting": False}):
        assert whats(store, "rain", **narrowed) == whats(store, "june 2024", **narrowed) == []


def test_a_night_and_a_later_word_answer_where_their_line_meets_what_narrows(store, clock):
    night = date(2025, 8, 9)
    line = writing.write_line(store, night, "memory", "The harbour.", clock)
    later.write(store, line.id, TONIGHT, "Gone since.", clock)
    for narrowed in ({}, {"weekdays": (5,)}, {"kinds": ("memory", "gratitude")}, {"first": night, "last": night}):
        assert whats(store, "gone", **narrowed) == ["Later word, Saturday 9 August 2025"]
        assert whats(store, "9.8.2025", **narrowed)[:1] == ["Night"]
    for narrowed in ({"weekdays": (4,)}, {"kinds": ("gratitude",)}, {"first": TONIGHT}, {"resting": True}):
        assert whats(store, "gone", **narrowed) == whats(store, "9.8.2025", **narrowed) == []


def test_a_caption_is_of_its_night_and_of_no_kind(store, clock, tmp_path):
    night = date(2025, 8, 9)
    photo = kept.take_in(store, taken(tmp_path / "a.jpg"), clock, night).photo
    kept.write_caption(store, photo.id, "The quay.")
    writing.write_line(store, night, "memory", "The harbour.", clock)
    assert whats(store, "quay") == whats(store, "quay", photo=True, weekdays=(5,)) == ["Caption, Saturday 9 August 2025"]
    for narrowed in ({"kinds": ("memory",)}, {"weekdays": (1,)}, {"last": date(2025, 8, 8)}):
        assert whats(store, "quay", **narrowed) == []
