"""What the person says of a place: a note, what it is, the photo that stands for it; and of places that become one."""

from collections.abc import MutableSequence
from dataclasses import replace

from keeper.actions import told_as
from keeper.actions.places.known import called, known
from keeper.actions.writing import check_text
from keeper.errors import UnknownThing
from keeper.model import PlaceMerge, PlacePage
from keeper.model.places import ROOFS
from keeper.store import Store
from keeper.store.photos import known as photos
from keeper.store.places import merges, pages

__all__ = ["ROOFS", "choose_photo", "give", "of", "say_roof", "take_back", "write_note"]

_BETWEEN = "\n\n"
_NOTHING = PlacePage()


def of(store: Store, place_id: str) -> PlacePage:
    """What is said of a place."""
    return pages.one(store, place_id)


def write_note(store: Store, place_id: str, note: str) -> None:
    """Write what is to be remembered of a place; "" takes it out. Raises UnreadableText, UnknownThing."""
    note = note.strip()
    check_text(note)
    what = "The note on" if note else "No note on"
    _keep(store, place_id, f"{what} {called(store, place_id)}", note=note)


def say_roof(store: Store, place_id: str, roof: str) -> None:
    """Say what a place is, one of ROOFS; "" for nothing. Raises UnknownThing."""
    if roof and roof not in ROOFS:
        raise UnknownThing(f"A place can be: {', '.join(ROOFS)}.")
    _keep(store, place_id, f"What {called(store, place_id)} is", roof=roof)


def choose_photo(store: Store, place_id: str, photo_id: str | None) -> None:
    """Let a photo stand for a place; None for none. Raises UnknownThing."""
    if photo_id and photos.by_id(store, photo_id) is None:
        raise UnknownThing("That photo is no longer in the keeper.")
    what = "The photo of" if photo_id else "No photo for"
    _keep(store, place_id, f"{what} {called(store, place_id)}", photo_id=photo_id)


def _keep(store: Store, place_id: str, told: str, **changed: str | None) -> None:
    with store.writing(told_as.of_place(told, place_id)):
        known(store, place_id)
        pages.keep(store, place_id, replace(pages.one(store, place_id), **changed))


def give(store: Store, gone_id: str, kept_id: str) -> dict[str, object]:
    """Say of the one place what was said of the other; returns what came of it, for ``take_back``."""
    gone, kept = pages.one(store, gone_id), pages.one(store, kept_id)
    gave: dict[str, object] = {}
    if gone.note and gone.note not in kept.note.split(_BETWEEN) and gone.note != kept.note:
        gave["note"] = gone.note
        kept = replace(kept, note=_BETWEEN.join(filter(None, (kept.note, gone.note))))
    for name in ("roof", "photo_id"):
        if getattr(gone, name) and not getattr(kept, name):
            gave[name] = getattr(gone, name)
            kept = replace(kept, **{name: gave[name]})
    pages.keep(store, kept_id, kept)
    return gave


def take_back(store: Store, merge_: PlaceMerge, later: MutableSequence[PlaceMerge]) -> None:
    """Say of the remaining place no more what came with one that leaves, unless it was changed, or a later one says so too."""
    page = pages.one(store, merge_.into_id)
    for name in ("note", "roof", "photo_id"):
        its = merge_.gave.get(name)
        if not its or not isinstance(its, str) or not _stands(page, name, its):
            continue
        heir, value = _heir(store, later, name, its)
        if heir >= 0:
            later[heir] = merges.set_gave(store, later[heir], {**later[heir].gave, name: value})
        if name != "note":
            page = replace(page, **{name: value})
        elif heir < 0:
            page = replace(page, note=_without(page.note, its))
    pages.keep(store, merge_.into_id, page)


def _heir(store: Store, later: MutableSequence[PlaceMerge], name: str, its: str) -> tuple[int, str | None]:
    """Which of the later ones says so too (of a note: the same), and what; -1 for none."""
    for place, one in enumerate(later):
        value = getattr(merges.said_of(store, one), name)
        if value and (name != "note" or value == its):
            return place, value
    return -1, getattr(_NOTHING, name)


def _stands(page: PlacePage, name: str, its: str) -> bool:
    return f"{_BETWEEN}{its}{_BETWEEN}" in f"{_BETWEEN}{page.note}{_BETWEEN}" if name == "note" else getattr(page, name) == its


def _without(note: str, its: str) -> str:
    # The last of it: what came was set at the end.
    before, _, after = f"{_BETWEEN}{note}{_BETWEEN}".rpartition(f"{_BETWEEN}{its}{_BETWEEN}")
    return _BETWEEN.join(part for part in (before.strip("\n"), after.strip("\n")) if part)
