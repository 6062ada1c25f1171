"""Kinds of lines: named, ordered, asked for, left out and added by the person. No line is ever changed by it."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import product

from keeper.actions.writing import check_text
from keeper.dates import written
from keeper.errors import AlreadyKept, TooManyKinds, UnknownThing, UnreadableDate, UnreadableText
from keeper.model import KINDS, MOST_KINDS, Act, LineKind
from keeper.review.night import kinds_asked
from keeper.store import Store
from keeper.store import kinds as kept_kinds
from keeper.store.folding import bare
from keeper.store.themes import found as themes

LONGEST_NAME = 60
"""The most characters a kind's name may have: it stands over a line."""

LONGEST_PROMPT = 200
"""The most characters a prompt may have."""


def every(store: Store) -> tuple[LineKind, ...]:
    """All kinds, those that are left out too, in the person's order."""
    return kept_kinds.every(store)


def asked_on(store: Store, night: date) -> tuple[LineKind, ...]:
    """The kinds that a night asks for, in the person's order; never none."""
    return kinds_asked(kept_kinds.every(store), night)


def meant(kinds: Sequence[LineKind], word: str, night: date) -> LineKind:
    """The kind that a name or its beginning means, those that the night asks for before others.

    The program's own words for the three that a keeper begins with are
    understood whatever they are called by now. Raises UnknownThing.
    """
    sought, asked = bare(word), kinds_asked(kinds, night)
    names = {kind.key: (bare(kind.title), bare(kind.title) if kind.key not in KINDS else kind.key) for kind in kinds}
    ways = product((0, 1), (str.__eq__, str.startswith), (asked, kinds))
    fitting = ([kind for kind in among if sought and fits(names[kind.key][which], sought)] for which, fits, among in ways)
    found = next(filter(None, fitting), [])
    if len(found) == 1:
        return found[0]
    told = ", ".join(kind.name or kind.key for kind in kinds)
    raise UnknownThing(f"\u201c{word}\u201d is no kind of line. There are: {told}.")


def check_asked(kind: LineKind, night: date, there: bool) -> None:
    """Raise UnknownThing, saying why, where a night neither asks for a kind nor has (``there``) a line of it."""
    if there or kind.asked_on(night):
        return
    if kind.began and night < kind.began:
        why = f"begins on {written.long_date(kind.began)}"
    else:
        why = f"was left out after {written.long_date(kind.ended)}"
    raise UnknownThing(f"{kind.title} {why}. Nothing was kept.")


def add(store: Store, name: str, began: date, ended: date | None = None, prompt: str = "", in_themes: bool = True) -> LineKind:
    """Add a kind after the others, asked for from a night on.

    Raises UnreadableText for an empty or overlong name or prompt, AlreadyKept
    for a name that another has, UnreadableDate where it ends before it begins,
    TooManyKinds where a night would ask for more than MOST_KINDS.
    """
    with store.writing(Act(f"A kind of line, \u201c{' '.join(name.split())}\u201d", "settings")):
        coming = LineKind("", -1, _free(store, name), _prompt(prompt), 0, in_themes, began, ended)
        _check_span(store, coming)
        return kept_kinds.add(store, coming)


def rename(store: Store, key: str, name: str) -> None:
    """Call a kind something else. Raises as ``add``, and UnknownThing."""
    kind = _known(store, key)
    with store.writing(Act(f"The name of a kind of line, \u201c{kind.title}\u201d", "settings")):
        name = _free(store, name, key)
        # By the program's own word it is the program's again.
        kept_kinds.change(store, replace(kind, name="" if name == replace(kind, name="").title else name))


def prompt(store: Store, key: str, text: str) -> None:
    """Let a kind's empty field ask something else; "" what it asks by itself. Raises UnreadableText, UnknownThing."""
    kind = _known(store, key)
    with store.writing(Act(f"What {kind.title} asks", "settings")):
        kept_kinds.change(store, replace(kind, prompt=_prompt(text)))


def put_in_themes(store: Store, key: str, in_themes: bool) -> None:
    """Say whether a kind's lines may belong to themes; those that do leave theirs. Raises UnknownThing."""
    kind = _known(store, key)
    with store.writing(Act(f"Whether themes look at {kind.title}", "settings")):
        kept_kinds.change(store, replace(kind, in_themes=in_themes))
        if not in_themes:
            themes.let_go_of_kind(store, key)


def order(store: Store, keys: Sequence[str]) -> None:
    """Put the kinds in this order; those not named come after, as they were."""
    with store.writing(Act("The order of the kinds of line", "settings")):
        rest = [kind.key for kind in kept_kinds.every(store) if kind.key not in keys]
        kept_kinds.order(store, [*keys, *rest])


def leave_out(store: Store, key: str, tonight: date) -> None:
    """Ask for a kind no more, from tonight on; its lines stay. Raises TooManyKinds for the last one, UnknownThing."""
    set_span(store, key, _known(store, key).began, tonight - timedelta(days=1), tonight)


def take_up(store: Store, key: str, tonight: date) -> None:
    """Ask for a kind again, from the night on that it began. Raises as ``add``, and UnknownThing."""
    set_span(store, key, _known(store, key).began, None, tonight)


def set_span(store: Store, key: str, began: date | None, ended: date | None, tonight: date) -> None:
    """Say from when to when a kind is asked for, both nights included; None for no bound. Raises as ``add``."""
    kind = _known(store, key)
    with store.writing(Act(f"From when to when {kind.title} is asked for", "settings")):
        changed = replace(kind, began=began, ended=ended)
        _check_span(store, changed, left_out=ended is not None and ended < tonight)
        if not any(one.asked_on(tonight) for one in (*_others(store, key), changed)):
            raise UnknownThing("A night asks for something: at least one kind stays.")
        kept_kinds.change(store, changed)


def _check_span(store: Store, coming: LineKind, left_out: bool = False) -> None:
    if coming.began and coming.ended and coming.ended < coming.began and not left_out:
        raise UnreadableDate("It would end before it begins.")
    all_kinds = (*_others(store, coming.key), coming)
    # The number in force grows only where one begins.
    begins = {kind.began or date.min for kind in all_kinds}
    if any(sum(kind.asked_on(night) for kind in all_kinds) > MOST_KINDS for night in begins if coming.asked_on(night)):
        raise TooManyKinds(
            f"A night asks for at most {_EIGHT} kinds of line. When one is left out, there is room for another; its lines stay."
        )


_EIGHT = {8: "eight"}.get(MOST_KINDS, str(MOST_KINDS))


def _others(store: Store, key: str) -> tuple[LineKind, ...]:
    return tuple(kind for kind in kept_kinds.every(store) if kind.key != key)


def _known(store: Store, key: str) -> LineKind:
    for kind in kept_kinds.every(store):
        if kind.key == key:
            return kind
    raise UnknownThing("There is no such kind of line in this keeper.")


def _free(store: Store, name: str, own: str = "") -> str:
    check_text(name)
    name = " ".join(name.split())
    if not name:
        raise UnreadableText("A kind of line needs a name.")
    if len(name) > LONGEST_NAME:
        raise UnreadableText(f"A kind\u2019s name stands over a line: {LONGEST_NAME} characters at most; this has {len(name)}.")
    for kind in _others(store, own):
        if bare(kind.title) == bare(name):
            out = " It is left out, and can be taken up again." if kind.ended else ""
            raise AlreadyKept(f"There is a kind called \u201c{kind.title}\u201d already.{out}")
    return name


def _prompt(text: str) -> str:
    check_text(text)
    text = " ".join(text.split())
    if len(text) > LONGEST_PROMPT:
        raise UnreadableText(f"A prompt has {LONGEST_PROMPT} characters at most; this has {len(text)}.")
    return text
