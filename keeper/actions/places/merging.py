"""One place made of two, and taken apart again."""

from dataclasses import replace

from keeper.actions import told_as
from keeper.actions.places import said
from keeper.actions.places.known import known
from keeper.clock import Clock
from keeper.dates import written
from keeper.errors import UnknownThing
from keeper.model import Act, Place, PlaceMerge
from keeper.review.places import MergedInto
from keeper.store import Store, nights, resting
from keeper.store.folding import bare
from keeper.store.places import merges
from keeper.store.places import named as places

_PARTS = {
    "position": ("latitude", "longitude", "zone"),
    "country": ("country", "region"),
    "town": ("geoname_id",),
}
"""What one place may give the other, each part whole."""


def merge(store: Store, gone_id: str, kept_id: str, clock: Clock) -> Place:
    """Make one place of two: the nights of the one move to the other, which keeps its name.

    What is not known of the kept place is taken from the other, and both notes
    stand, a blank line between; it rests if either rested. ``take_apart`` takes it back. Raises UnknownThing.
    """
    if gone_id == kept_id:
        raise UnknownThing("A place cannot be merged with itself.")
    with store.writing(), store.writing(_of(store, gone_id, kept_id)):
        gone, kept = known(store, gone_id), known(store, kept_id)
        filled = _filled(kept, gone)
        gave = {part: _values(kept, part) for part in _PARTS if _values(kept, part) != _values(filled, part)}
        if gone.resting and not kept.resting:
            resting.rest(store, "place", kept_id)
            gave["rest"] = resting.id_of(store, "place", kept_id)
        gave.update(said.give(store, gone_id, kept_id))
        merges.merge(store, gone_id, kept_id, clock.now().date(), gave)
        places.change(store, filled)
        return places.by_id(store, kept_id)


def _of(store: Store, gone_id: str, kept_id: str) -> Act:
    return told_as.of_place(f"{known(store, gone_id).name} merged into {known(store, kept_id).name}", kept_id)


def take_apart(store: Store, merge_id: str) -> tuple[Place, str]:
    """Give a merged place back as it was, with the nights it had; returns it and a sentence.

    Nights said since to be elsewhere stay there, and so do those written
    since. What the remaining place had from the other goes with it, unless the
    person changed it in the meantime. Merges into one place can be taken apart
    in any order; one into a place that was merged away itself, after that one.
    Raises UnknownThing.
    """
    merge_ = merges.by_id(store, merge_id)
    name = merge_.name if merge_ else "A place"
    with store.writing(told_as.of_place(f"{name} taken apart", merge_.into_id if merge_ else "")):
        merge_ = merges.by_id(store, merge_id)
        if merge_ is None:
            raise UnknownThing("These two places were taken apart already.")
        kept, later = _remaining(store, merge_), _later(store, merge_)
        merges.take_apart(store, merge_)
        for part in _PARTS:
            kept = _taken_back(store, kept, merge_, later, part)
        places.change(store, kept)
        said.take_back(store, merge_, later)
        _wake_again(store, merge_, later)
        back = places.by_id(store, merge_.gone["id"])
        return back, _told(store, back, kept)


def merged_into(store: Store, place_id: str) -> tuple[MergedInto, ...]:
    """What was merged into a place and can be taken apart, latest first."""
    found = reversed(merges.into(store, place_id))
    return tuple(MergedInto(one.id, one.name, one.on, _within(store, one)) for one in found)


def _within(store: Store, merge_: PlaceMerge) -> tuple[str, ...]:
    names: list[str] = []
    for one in merges.into(store, merge_.gone["id"]):
        names += [one.name, *_within(store, one)]
    return tuple(names)


def _remaining(store: Store, merge_: PlaceMerge) -> Place:
    kept = places.by_id(store, merge_.into_id)
    if kept is not None:
        return kept
    since = merges.of(store, merge_.into_id)
    name = f"\u201c{since.name}\u201d" if since else "The other place"
    raise UnknownThing(f"{name} was itself merged into another place since. Take that apart first.")


def _later(store: Store, merge_: PlaceMerge) -> list[PlaceMerge]:
    every = list(merges.into(store, merge_.into_id))
    return every[every.index(merge_) + 1 :]


def _filled(kept: Place, gone: Place) -> Place:
    if kept.latitude is None and gone.latitude is not None:
        kept = replace(kept, latitude=gone.latitude, longitude=gone.longitude, zone=gone.zone)
    if not kept.country and gone.country:
        kept = replace(kept, country=gone.country, region=gone.region)
    if kept.geoname_id is None and bare(kept.name) == bare(gone.name):
        kept = replace(kept, geoname_id=gone.geoname_id)
    return kept


def _taken_back(store: Store, kept: Place, merge_: PlaceMerge, later: list[PlaceMerge], part: str) -> Place:
    before = merge_.gave.get(part)
    if before is None or _values(kept, part) != _values(_gone(merge_), part):
        return kept
    bare_of_it = _with(kept, part, before)
    # A place merged later would have given it, had this one not been there.
    for index, heir in enumerate(later):
        filled = _filled(bare_of_it, _gone(heir))
        if _values(filled, part) != before:
            later[index] = merges.set_gave(store, heir, {**heir.gave, part: before})
            return _with(kept, part, _values(filled, part))
    return bare_of_it


def _wake_again(store: Store, merge_: PlaceMerge, later: list[PlaceMerge]) -> None:
    # Only the rest that came with the merge: the person may have let it rest anew.
    rest = merge_.gave.get("rest")
    if rest is None or resting.id_of(store, "place", merge_.into_id) != rest:
        return
    heir = next((one for one in later if resting.id_of(store, "place", one.gone["id"])), None)
    if heir is None:
        resting.wake(store, "place", merge_.into_id)
    else:
        merges.set_gave(store, heir, {**heir.gave, "rest": rest})


def _gone(merge_: PlaceMerge) -> Place:
    return Place(**{name: value for name, value in merge_.gone.items() if name not in ("begun_at", "page")})


def _values(place: Place, part: str) -> list:
    return [getattr(place, name) for name in _PARTS[part]]


def _with(place: Place, part: str, values: list) -> Place:
    return replace(place, **dict(zip(_PARTS[part], values, strict=True)))


def _told(store: Store, back: Place, kept: Place) -> str:
    count = len(nights.all_at(store, back.id))
    told = f"{back.name} is a place of its own again, with {written.counted(count, 'night')}."
    same = places.all_named(store, back.name)
    if any(one.id not in (back.id, kept.id) and one.country == back.country for one in same):
        told += " There is another place of that name; if the two are the same, merge them."
    return told
