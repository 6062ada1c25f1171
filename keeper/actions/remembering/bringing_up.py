"""Bringing up earlier nights on their day."""

from collections.abc import Sequence
from datetime import date

from keeper.actions.awake import Awake, awake
from keeper.actions.carrying import CARRIED_FOR
from keeper.model import Night, Photo, Place
from keeper.review import looking_back as looking_back_review
from keeper.review.looking_back import LookingBack
from keeper.store import Store, nights
from keeper.store.photos import known as photos
from keeper.store.places import named as places


def looking_back(store: Store, night: date) -> LookingBack:
    """What to bring up on a night, and why."""
    rule = awake(store)
    candidates = _of_others(store, rule, nights.on_days(store, looking_back_review.days_to_look_at(night), night))
    why, shown = looking_back_review.chosen(night, candidates)
    place_name = ""
    if not shown:
        place = place_of(store, night)
        if place and rule.place(place):
            shown = looking_back_review.last_time_there(night, _of_others(store, rule, nights.at_place(store, place.id, night)))
            why, place_name = (looking_back_review.AT_THE_PLACE, place.name) if shown else (looking_back_review.NOTHING, "")
    told = tuple(one for one in (looking_back_review.without_resting(one, rule) for one in nights.some(store, shown)) if one.lines)
    return LookingBack(night, why, told, place_name, _photos_of(store, told, rule))


def _of_others(store: Store, rule: Awake, found: Sequence[date]) -> Sequence[date]:
    """The nights with a line awake, of those whose lines do not rest by themselves."""
    if not rule.names:
        return found
    return [one.date for one in nights.some(store, found) if looking_back_review.without_resting(one, rule).lines]


def _photos_of(store: Store, told: tuple[Night, ...], rule: Awake) -> dict[date, Photo]:
    chosen = {one.date: photos.photo_of_night(store, one.date) for one in told if one.photo_count}
    return {night: photo for night, photo in chosen.items() if photo and rule.photo(photo, [night])}


def place_of(store: Store, night: date) -> Place | None:
    """Where a night is spent: what is kept of it, else what would be carried on to it."""
    kept = nights.one(store, night)
    if kept.place or kept.place_source:
        return kept.place
    carried = nights.place_before(store, night, CARRIED_FOR)
    return places.by_id(store, carried) if carried else None
