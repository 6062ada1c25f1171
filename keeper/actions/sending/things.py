"""A theme, a place and a person as pages to send."""

from collections.abc import Iterable

from keeper.actions import people
from keeper.actions.awake import Awake, awake
from keeper.actions.places import known as places
from keeper.actions.printing.contents import ink_of
from keeper.actions.reading import place_named
from keeper.actions.sending.parts import by_night, photo_of, speaker
from keeper.actions.sending.spans import where_told
from keeper.actions.sending.wanted import SentWanted
from keeper.actions.themes import asking as themes
from keeper.dates import written
from keeper.errors import UnknownThing
from keeper.model import Found, Line, Person
from keeper.review.sent import SentPage, SentPart
from keeper.store import Store, search
from keeper.study.people import mentions_any

_EVERY = 1_000_000
_PHOTOS = 6


def sent_theme(store: Store, wanted: SentWanted) -> SentPage:
    """A theme with its lines. Raises UnknownThing."""
    number = themes.named(store, wanted.name)
    view = themes.theme_view(store, number)
    found = themes.lines_of(store, number, _EVERY)
    photos = tuple(photo_of(photo, written.full_date(night)) for photo, night in view.photos) if wanted.photos else ()
    return page_of_lines(store, view.thread.name, found, _rule(store, wanted), wanted, (SentPart(photos=photos),))


def sent_place(store: Store, wanted: SentWanted) -> SentPage:
    """A place with the lines of its nights; where it lies only where positions are wanted. Raises UnknownThing."""
    place = place_named(store, wanted.name)
    if place is None:
        raise UnknownThing(f"No night was spent at a place called \u201c{wanted.name}\u201d.")
    if place.resting and not wanted.resting:
        raise UnknownThing(f"{place.name} rests. It is sent only if what rests is included.")
    rule = _rule(store, wanted, asked_for_place=True)
    view = places.place_view(store, place.id)
    shown = places.photos_at(store, place.id, _PHOTOS) if wanted.photos else ()
    facts: tuple[tuple[str, str], ...] = ()
    if wanted.positions:
        lies = ", ".join(part for part in (place.region, place.country) if part)
        facts = (("Nights", where_told(place, view.kept.nights)), *((("Lies in", lies),) if lies else ()))
    parts = (SentPart(photos=tuple(photo_of(photo, written.full_date(night)) for photo, night in shown)), SentPart("Where", facts=facts))
    return page_of_lines(store, place.name, places.lines_at(store, place.id, _EVERY), rule, wanted, parts)


def sent_person(store: Store, wanted: SentWanted) -> SentPage:
    """The lines that name a person. Raises UnknownThing for who is neither marked nor named."""
    person = people.named(store, wanted.name) or Person("", wanted.name)
    if person.resting and not wanted.resting:
        raise UnknownThing(f"{person.names[0]} rests, and is sent only if what rests is included.")
    if not person.names:
        raise UnknownThing("A name is needed.")
    found: dict[str, Found] = {}
    for name in person.names:
        for one in search.find(store, search.Sought(f'"{name}"'), _EVERY):
            if mentions_any(one.line.text, person.names):
                found[one.line.id] = one
    return page_of_lines(store, person.names[0], found.values(), _rule(store, wanted), wanted, ())


def _rule(store: Store, wanted: SentWanted, asked_for_place: bool = False) -> Awake:
    return Awake(everything=True) if wanted.resting else awake(store, asked_for_place=asked_for_place)


def page_of_lines(
    store: Store, title: str, found: Iterable[Found], rule: Awake, wanted: SentWanted, before: tuple[SentPart, ...]
) -> SentPage:
    """A page of the lines that the rule lets be shown, under a title. Raises UnknownThing where there is none."""
    shown = [one for one in found if rule.line(one.line)]
    if not shown:
        raise UnknownThing(f"No line of \u201c{title}\u201d may be sent: there is none, or what there is rests.")
    lines = [one.line for one in shown]
    says = speaker(line.text for line in lines)
    where = {one.line.night: one.place_name for one in shown if one.place_name} if wanted.positions and wanted.what != "place" else {}
    parts = (*before, SentPart("Lines", nights=by_night(lines, says, where)))
    return SentPage(title, _told(lines), tuple(one for one in parts if not one.empty), ink_of(store), says.most, wanted.size)


def _told(lines: list[Line]) -> str:
    nights = sorted({line.night for line in lines})
    counted = f"{written.counted(len(lines), 'line')} on {written.counted(len(nights), 'night')}"
    return f"{counted}, {written.span(nights[0], nights[-1])}"
