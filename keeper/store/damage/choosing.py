"""Of all that was carved and of a backup: which is each night's line, what is doubtful, and what is missing."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from keeper.model import KINDS
from keeper.store.damage.carving import HIDDEN, IN_PLACE, LEFT_OVER, LOOSE, NONE, RIGHT, WRONG, Carved, Haul
from keeper.store.moments import NUMBERS_A_NIGHT

Key = tuple[str, str]
"""A night and a kind, as the file spells them."""


@dataclass(frozen=True)
class Sorting:
    """What a new keeper would hold.

    ``right`` are lines proved by their sums, ``unproved`` those from before
    there were sums, ``from_backup`` those that stand only there. ``doubtful``
    are not what was written, or two for one night; ``left_over`` may have been
    taken out by the person. ``missing`` are known of, and nowhere.
    """

    right: tuple[Carved, ...]
    unproved: tuple[Carved, ...]
    from_backup: tuple[Carved, ...]
    doubtful: tuple[Carved, ...]
    left_over: tuple[Carved, ...]
    missing: tuple[Key, ...]

    @property
    def lines(self) -> tuple[Carved, ...]:
        """All that is taken without a question."""
        return (*self.right, *self.unproved, *self.from_backup)


def choose(haul: Haul, of_backup: Iterable[Carved] = ()) -> Sorting:
    """The choice that needs no decision, and what the person is to decide."""
    gone = {_words(one) for one in haul.wordings}
    carved = _all_proved(haul.lines)
    candidates = [one for one in carved if one.place == IN_PLACE or (_may_be_all(one, haul) and _words(one) not in gone)]
    chosen = _best(one for one in candidates if one.proof in (RIGHT, NONE))
    backed = _from_backup(of_backup, chosen, gone)
    taken = {**chosen, **backed}
    doubtful = _doubtful([one for one in candidates if one.proof == WRONG], taken, haul)
    left = [one for one in carved if one.place == LEFT_OVER and one.proof != WRONG and _words(one) not in gone]
    kinds = _kinds(haul)
    known = taken.keys() | {one.key for one in doubtful}
    return Sorting(
        right=_in_order(one for key, one in chosen.items() if key not in backed and one.proof == RIGHT),
        unproved=_in_order(one for key, one in chosen.items() if key not in backed and one.proof == NONE),
        from_backup=_in_order(backed.values()),
        doubtful=doubtful,
        left_over=_in_order(_best(one for one in left if one.key not in taken and one.id not in _ids(taken)).values()),
        missing=tuple(sorted(key for key in haul.told - known if key[1] in kinds)),
    )


def _may_be_all(one: Carved, haul: Haul) -> bool:
    """Whether a line that stands in no page in force may be all there is of it."""
    return one.place == LOOSE or (one.place == HIDDEN and one.proof == RIGHT and one.key in haul.told)


def _all_proved(lines: Iterable[Carved]) -> list[Carved]:
    """In a keeper that gives sums every line has one: where it is gone, something happened to the line."""
    lines = list(lines)
    if not any(one.proof == RIGHT for one in lines):
        return lines
    return [replace(one, proof=WRONG) if one.proof == NONE else one for one in lines]


def _kinds(haul: Haul) -> frozenset[str]:
    """The kinds that there are: what an index has besides may be one with a letter changed."""
    told = Counter(kind for _, kind in haul.told)
    return frozenset(numbers_of_kinds(haul.lines)) | {kind for kind, many in told.items() if many > 2}


def _words(one: Carved) -> tuple[str, str, str]:
    return one.id, one.text, one.written_at


def _ids(chosen: dict[Key, Carved]) -> frozenset[str]:
    return frozenset(one.id for one in chosen.values())


def _best(candidates: Iterable[Carved]) -> dict[Key, Carved]:
    """One line for each night and kind, each id once: proved before unproved, in place before loose, the latest."""
    found: dict[Key, Carved] = {}
    ids: dict[str, Key] = {}
    for one in sorted(candidates, key=_trust, reverse=True):
        if one.key not in found and one.id not in ids:
            found[one.key] = one
            ids[one.id] = one.key
    return found


def _trust(one: Carved) -> tuple[bool, bool, bool, str]:
    return one.proof == RIGHT, one.place == IN_PLACE, one.place != HIDDEN, one.written_at


def _from_backup(of_backup: Iterable[Carved], chosen: dict[Key, Carved], gone: set) -> dict[Key, Carved]:
    """What only the backup has, or has later; not what was taken out or moved since."""
    ids = {one.id: one.key for one in chosen.values()}
    found = {}
    for one in of_backup:
        there = chosen.get(one.key)
        if there is not None:
            # A stale page may have an older wording; one in force has the newer.
            if there.place != IN_PLACE and there.id == one.id and there.written_at < one.written_at:
                found[one.key] = one
        elif _words(one) not in gone and one.id not in ids:
            found[one.key] = one
    return found


def _doubtful(wrong: list[Carved], taken: dict[Key, Carved], haul: Haul) -> tuple[Carved, ...]:
    numbers = numbers_of_kinds(haul.lines)
    found: dict[tuple, Carved] = {}
    for one in sorted(wrong, key=lambda o: o.place == IN_PLACE, reverse=True):
        placed = _placed(one, numbers)
        there = taken.get(placed.key)
        if there is None or there.text != placed.text:
            found.setdefault((*placed.key, placed.text), placed)
    return _in_order(found.values())


def numbers_of_kinds(lines: Iterable[Carved]) -> dict[str, int]:
    """Which number within a night each kind has, by what the cells of proved lines say."""
    seen: dict[tuple[str, int], int] = {}
    for one in lines:
        if one.proof == RIGHT and one.number is not None and one.place == IN_PLACE:
            at = one.kind, one.number % NUMBERS_A_NIGHT
            seen[at] = seen.get(at, 0) + 1
    found = dict(zip(KINDS, range(len(KINDS)), strict=True))
    return found | {kind: number for (kind, number), _ in sorted(seen.items(), key=lambda item: item[1])}


def _placed(one: Carved, numbers: dict[str, int]) -> Carved:
    """A doubtful line with the night and kind that its cell tells, where its own are none; "" where neither does."""
    night, kind = one.night if _is_day(one.night) else "", one.kind if one.kind in numbers else ""
    if one.number is not None:
        kinds = {number: kind for kind, number in numbers.items()}
        day = one.number // NUMBERS_A_NIGHT
        night = night or (date.fromordinal(day).isoformat() if 0 < day <= date.max.toordinal() else "")
        kind = kind or kinds.get(one.number % NUMBERS_A_NIGHT, "")
    return replace(one, night=night, kind=kind)


def _is_day(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def _in_order(lines: Iterable[Carved]) -> tuple[Carved, ...]:
    return tuple(sorted(lines, key=lambda one: (one.night, one.kind, one.text)))
