"""Who is on a photo."""

from keeper.actions import people, told_as
from keeper.model import Person
from keeper.store import Store
from keeper.store import people as known
from keeper.store.one_person import about as kept_about


def who_is_on(store: Store, photo_id: str) -> tuple[tuple[Person, bool], ...]:
    """Everybody who is marked, and whether they are on a photo; who rests only if they are."""
    on = kept_about.on_photo(store, photo_id)
    return tuple((one, one.id in on) for one in known.every(store) if one.names and (one.id in on or not one.resting))


def mark(store: Store, photo_id: str, person_id: str, on: bool) -> None:
    """Say that somebody is on a photo, or that they are not. Raises UnknownThing."""
    name = people.called(store, person_id)
    with store.writing(told_as.of_person(f"{name} {'on' if on else 'no longer on'} a photo", person_id)):
        kept_about.mark(store, photo_id, people.known(store, person_id).id, on)
