"""What answers besides lines: what is said of places and of people."""

from datetime import date

from keeper.actions import people, writing
from keeper.actions.finding import Sought
from keeper.actions.finding.everywhere import Beside, everywhere
from keeper.actions.one_person import days
from keeper.actions.places import known as places
from keeper.actions.places import said

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
