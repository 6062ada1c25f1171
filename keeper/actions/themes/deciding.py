"""The person's word on themes: each decision is kept at once, and can be undone (``undoing``).

``making.look_again`` then lays the decisions over the themes; until that
is done only names and pins are seen.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from keeper.actions import told_as
from keeper.actions.themes.decided import LEAVE_OUT, LET_IN, UNNAME, UNPIN, as_row, left_out, mark_of
from keeper.actions.writing import check_text
from keeper.clock import Clock
from keeper.dates import written
from keeper.errors import AlreadyKept, UnknownThing, UnreadableText
from keeper.store import Store, lines
from keeper.store.folding import bare
from keeper.store.ids import new_id
from keeper.store.themes import decisions as theme_decisions
from keeper.store.themes import found as themes
from keeper.store.themes import lines as theme_lines
from keeper.store.themes.found import KeptTheme
from keeper.study.themes.naming import first_word
from keeper.study.themes.nouns import Decision, Merge, Move, Pin, Rename, Split, Start, TakeOut

LONGEST_NAME = 80
"""The most characters a theme's name may have."""


def rename(store: Store, number: int, name: str, clock: Clock) -> None:
    """Call a theme what the person calls it; "" takes the name back.

    Raises UnreadableText for what cannot be a name, AlreadyKept for one that
    the person gave another theme, UnknownThing.
    """
    name = checked_name(name)
    theme = known_theme(store, number)
    if not name:
        if theme.named:
            with store.writing(told_as.of_theme(f"No name of your own for {told_as.quoted(theme.name)}", number)):
                _add(store, UNNAME, {"theme": number}, clock)
    elif not (theme.named and theme.name == name):
        _call(store, number, name, clock)


def checked_name(name: str) -> str:
    """A theme's name as it is kept. Raises UnreadableText."""
    check_text(name)
    name = " ".join(name.split())
    if len(name) > LONGEST_NAME:
        raise UnreadableText(f"A theme\u2019s name has at most {LONGEST_NAME} characters; this has {written.number(len(name))}.")
    return name


def _call(store: Store, number: int, name: str, clock: Clock) -> None:
    others = [one for one in themes.every(store) if one.number != number]
    if any(one.named and bare(one.name) == bare(name) for one in others):
        raise AlreadyKept(f"Another theme is called \u201c{name}\u201d; the two can be merged.")
    with store.writing(told_as.of_theme(f"The name {told_as.quoted(name)} of a theme", number)):
        if any(not one.named and first_word(one.name) == first_word(name) for one in others):
            # That one has to be called something else, which the redraw sees to.
            _decide(store, Rename(number, name), clock)
            themes.call(store, number, name)
        else:
            _add_seen(store, Rename(number, name), clock, lambda: themes.call(store, number, name))


def pin(store: Store, number: int, clock: Clock) -> None:
    """Let a theme be there always. Raises UnknownThing."""
    theme = known_theme(store, number)
    if not theme.pinned:
        pinned = Pin(number, theme_lines.member_ids(store, number))
        with store.writing(told_as.of_theme(f"{told_as.quoted(theme.name)} pinned", number)):
            _add_seen(store, pinned, clock, lambda: themes.pin(store, number, True), (theme.name,))


def unpin(store: Store, number: int, clock: Clock) -> None:
    """Let a theme go when its lines no longer make one. Raises UnknownThing."""
    theme = known_theme(store, number)
    if not theme.pinned:
        return
    with store.writing(told_as.of_theme(f"{told_as.quoted(theme.name)} unpinned", number)):
        _add(store, UNPIN, {"theme": number, "_names": [theme.name]}, clock)
        themes.pin(store, number, False)


def merge(store: Store, keep: int, gone: int, clock: Clock) -> None:
    """Make one theme of two; the name of the kept one stays. Raises UnknownThing."""
    if keep == gone:
        raise UnknownThing("A theme cannot be merged with itself.")
    names = known_theme(store, keep).name, known_theme(store, gone).name
    with store.writing(told_as.of_theme(f"{told_as.quoted(names[1])} merged into {told_as.quoted(names[0])}", keep)):
        _decide(store, Merge(keep, gone), clock, names)


def decide_split(store: Store, number: int, made: Callable[[int], Split], clock: Clock) -> int:
    """Part a theme in two; ``made`` gives the decision for the number of the new one, which is returned. Raises UnknownThing."""
    name = known_theme(store, number).name
    with store.writing(told_as.of_theme(f"{told_as.quoted(name)} split in two", number)):
        return _with_number(store, made, clock, (name,))


def start(store: Store, line_ids: Sequence[str], clock: Clock) -> int:
    """Begin a theme from some lines; its number. Raises UnknownThing without any."""
    if not line_ids or any(lines.by_id(store, line_id) is None for line_id in line_ids):
        raise UnknownThing("A theme needs lines to start from.")
    with store.writing(told_as.of_theme("A theme started")):
        return _with_number(store, lambda new: Start(new, tuple(line_ids)), clock, ())


def move(store: Store, line_ids: Sequence[str], number: int, clock: Clock) -> None:
    """Put lines into a theme, as one decision. Raises UnknownThing."""
    for line_id in line_ids:
        lines.still_kept(store, line_id)
    name, moved = known_theme(store, number).name, written.counted(len(line_ids), "line")
    with store.writing(told_as.of_theme(f"{moved} moved to {told_as.quoted(name)}", number)):
        _decide_together(store, [Move(line_id, number) for line_id in line_ids], clock, name)


def put_in(store: Store, line_ids: Sequence[str], clock: Clock) -> int:
    """Put loose lines each into the theme that comes nearest, as one decision, seen at once; how many there were."""
    nearest = theme_lines.beside(store, None, line_ids)
    wanted = [(line_id, *nearest[line_id]) for line_id in line_ids if line_id in nearest]
    if not wanted:
        return 0
    names = list(dict.fromkeys(name for _, _, name in wanted))
    into = told_as.quoted(names[0]) if len(names) == 1 else "the nearest themes"
    told = f"{written.counted(len(wanted), 'line')} put into {into}"
    with store.writing(told_as.of_theme(told, wanted[0][1])):
        _decide_together(store, [Move(line_id, number) for line_id, number, _ in wanted], clock, names[0], told)
        themes.put(store, [(line_id, number, 1.0) for line_id, number, _ in wanted])
        _lay_anew(store)
    return len(wanted)


def _lay_anew(store: Store) -> None:
    """Let decisions be laid over the themes once more, even if this one is taken back before: its lines moved at once."""
    build = themes.build(store)
    if build is not None:
        themes.keep_build(store, replace(build, decided=""))


def take_out(store: Store, line_ids: Sequence[str], number: int, clock: Clock) -> None:
    """Let lines be in a theme no more, as one decision. Raises UnknownThing."""
    name, taken = known_theme(store, number).name, written.counted(len(line_ids), "line")
    with store.writing(told_as.of_theme(f"{taken} removed from {told_as.quoted(name)}", number)):
        _decide_together(store, [TakeOut(line_id, number) for line_id in line_ids], clock, name)


def leave_word_out(store: Store, word: str, clock: Clock) -> None:
    """Let a word say nothing of a theme; themes are then looked for anew. Raises UnreadableText."""
    check_text(word)
    word = " ".join(word.split())
    if word and word not in words_left_out(store):
        with store.writing(told_as.of_theme(f"{told_as.quoted(word)} left out")):
            _add(store, LEAVE_OUT, {"word": word}, clock)


def let_word_in(store: Store, word: str, clock: Clock) -> None:
    """Let a word that was left out count again."""
    if word in words_left_out(store):
        with store.writing(told_as.of_theme(f"{told_as.quoted(word)} let back in")):
            _add(store, LET_IN, {"word": word}, clock)


def words_left_out(store: Store) -> tuple[str, ...]:
    """The words that say nothing of a theme, by the person's word."""
    return left_out(theme_decisions.standing(store))


def known_theme(store: Store, number: int) -> KeptTheme:
    """A theme by its number. Raises UnknownThing."""
    theme = themes.one(store, number)
    if theme is None:
        raise UnknownThing("That theme is no longer there.")
    return theme


def _add(store: Store, what: str, detail: dict, clock: Clock) -> None:
    theme_decisions.add(store, what, detail, clock.moment().utc)


def _decide(store: Store, decision: Decision, clock: Clock, names: Sequence[str] = ()) -> None:
    what, detail = as_row(decision)
    # The names as they were, for telling what would be undone.
    _add(store, what, {**detail, "_names": list(names)}, clock)


def _decide_together(store: Store, decisions: Sequence[Decision], clock: Clock, name: str, told: str = "") -> None:
    """Keep decisions made in one go; ``told``: what they are in words, where each by itself would not say it."""
    group, said = new_id(), {"_told": told} if told else {}
    with store.writing():
        for decision in decisions:
            what, detail = as_row(decision)
            _add(store, what, {**detail, "_names": [name], "_group": group, **said}, clock)


def _with_number(store: Store, made: Callable[[int], Decision], clock: Clock, names: Sequence[str]) -> int:
    with store.writing():
        number = themes.next_number(store)
        themes.reserve(store, number, clock.moment().utc)
        _decide(store, made(number), clock, names)
    return number


def _add_seen(
    store: Store, decision: Decision, clock: Clock, show: Callable[[], None], names: Sequence[str] = ()
) -> None:
    """Keep a decision whose whole effect is seen at once, so that no redraw is due for it."""
    with store.writing():
        build, before = themes.build(store), mark_of(theme_decisions.standing(store))
        _decide(store, decision, clock, names)
        show()
        if build and build.decided == before:
            themes.keep_build(store, replace(build, decided=mark_of(theme_decisions.standing(store))))
