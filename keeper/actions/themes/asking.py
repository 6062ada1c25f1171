"""Themes: what the pages ask for, and every intention about them."""

from dataclasses import replace
from datetime import date

from keeper.actions.awake import Awake, awake
from keeper.actions.finding import theme_names
from keeper.actions.themes import begun as those_begun
from keeper.actions.themes.deciding import (
    leave_word_out,
    let_word_in,
    merge,
    move,
    pin,
    put_in,
    rename,
    start,
    take_out,
    unpin,
    words_left_out,
)
from keeper.actions.themes.looking import halves_apart, look_apart
from keeper.actions.themes.making import (
    NOTHING,
    REBUILD,
    REDRAW,
    look_again,
    of_older_form,
    rebuild_themes,
    redraw_themes,
    themes_due,
)
from keeper.actions.themes.placing import place_line, place_new
from keeper.actions.themes.splitting import split, split_so
from keeper.actions.themes.undoing import decisions, last_decision, undo, undo_last
from keeper.actions.themes.within import lines_within, make_theme, parts_told
from keeper.errors import UnknownThing
from keeper.model import Found, Line
from keeper.review import themes as themes_review
from keeper.review.themes import Calendar, ThemesView, ThemeView
from keeper.store import Store, lines
from keeper.store.folding import bare
from keeper.store.photos import known as photos
from keeper.store.themes import found as themes
from keeper.store.themes import lines as theme_lines
from keeper.study.themes.nouns import ENOUGH

__all__ = [
    "ENOUGH", "NOTHING", "REBUILD", "REDRAW", "decisions", "halves_apart", "last_decision", "leave_word_out", "let_word_in",
    "lines_beside", "lines_of", "lines_within", "look_again", "look_apart", "make_theme", "merge", "move", "named", "names",
    "nights_of", "of_older_form", "pin", "place_line", "place_new", "put_in", "rebuild_themes", "redraw_themes", "rename", "split", "split_so",
    "start", "take_out", "theme_view", "themes_due", "themes_view", "undo", "undo_last", "unpin", "words_left_out",
]  # fmt: skip

PHOTOS = 6
PLACES = 8

_LOOKED_THROUGH = 8
"""Times as many lines are looked through as stand for a theme, since some may speak of who rests."""


def themes_view(store: Store) -> ThemesView:
    """All themes, largest first, and how matters stand with them.

    One whose name is led by somebody who rests is not among them.
    """
    build, nights, rule = themes.build(store), theme_lines.nights_by_theme(store), awake(store)
    told = (replace(theme, name=rule.theme_name(theme.name)) for theme in themes.every(store) if theme.number in nights)
    known = [theme for theme in told if theme.name]
    calendar, begun = Calendar(theme_lines.nights_kept(store)), those_begun.begun(store)
    threads = [
        replace(
            themes_review.thread(theme, nights[theme.number], calendar, len(known), _central(store, theme.number, rule)),
            begun=theme.number in begun,
        )
        for theme in known
    ]
    threads.sort(key=lambda one: (-one.lines, one.number))
    return ThemesView(
        looked=build is not None,
        enough=build is not None and build.enough,
        sure=build.sure if build else 0.0,
        threads=tuple(threads),
        loose=len(nights.get(None, ())),
        kept=lines.count(store),
        due=themes_due(store),
        undo=last_decision(store),
        left_out=words_left_out(store),
        older=of_older_form(store),
    )


def theme_view(store: Store, number: int) -> ThemeView:
    """A theme's own page, but for its lines; who rests is not told of. Raises UnknownThing."""
    theme, nights, rule = themes.one(store, number), theme_lines.nights_of(store, number), awake(store)
    if theme is None or not nights:
        raise UnknownThing("That theme is no longer there.")
    calendar = Calendar(theme_lines.nights_kept(store))
    shown = replace(theme, name=rule.theme_name(theme.name) or theme.name)
    thread = themes_review.thread(shown, nights, calendar, len(themes.every(store)), _central(store, number, rule))
    near = theme_lines.photos_of(store, number, PHOTOS * _LOOKED_THROUGH)
    found = ((photos.by_id(store, photo_id), night) for photo_id, night in near)
    shown_photos = tuple((photo, night) for photo, night in found if photo and rule.photo(photo, [night]))
    return ThemeView(
        thread=replace(
            thread, words=tuple(word for word in thread.words if rule.text(word)), begun=number in those_begun.begun(store)
        ),
        places=tuple(one for one in theme_lines.places_of(store, number, PLACES) if rule.text(one[0])),
        strongest=themes_review.strongest(thread.course),
        photos=shown_photos[:PHOTOS],
        nights=frozenset(nights),
        undo=last_decision(store),
        parts=tuple((one.number, one.name, one.lines) for one in parts_told(store, number)),
    )


def lines_of(
    store: Store, number: int | None, limit: int = 50, skip: int = 0, central_first: bool = False
) -> tuple[Found, ...]:
    """A theme's lines (None: the loose ones), newest or most central first."""
    return theme_lines.lines_of(store, number, limit, skip, central_first)


def lines_beside(
    store: Store, number: int | None, limit: int = 50, skip: int = 0, central_first: bool = False
) -> tuple[tuple[Found, ...], dict[str, tuple[int, str]]]:
    """``lines_of``, and of each line the number and name of the other theme it stands in (of loose ones: of the nearest)."""
    found, rule = lines_of(store, number, limit, skip, central_first), awake(store)
    told = theme_lines.beside(store, number, [one.line.id for one in found])
    named = {line_id: (theme, rule.theme_name(name)) for line_id, (theme, name) in told.items()}
    return found, {line_id: one for line_id, one in named.items() if one[1]}


def nights_of(store: Store, number: int | None) -> frozenset[date]:
    """The nights on which a theme came up (None: of the loose lines)."""
    return frozenset(theme_lines.nights_of(store, number))


def names(store: Store) -> tuple[tuple[int, str], ...]:
    """The number and name of every theme that is shown, by name; without what speaks of who rests."""
    return theme_names(store)


def named(store: Store, typed: str) -> int:
    """The number of the theme that is called so, or whose name alone begins so. Raises UnknownThing."""
    # Asked for by name: by the whole of it too, where some of it rests.
    wanted, every = bare(typed), [*((theme.number, theme.name) for theme in themes.every(store)), *names(store)]
    exact = {number for number, name in every if bare(name) == wanted}
    begun = exact or {number for number, name in every if wanted and bare(name).startswith(wanted)}
    if len(begun) != 1:
        why = "Several themes begin" if begun else "No theme begins"
        raise UnknownThing(f"{why} with \u201c{typed}\u201d.")
    return begun.pop()


def _central(store: Store, number: int, rule: Awake) -> tuple[Line, ...]:
    near = theme_lines.central(store, number, themes_review.CENTRAL * _LOOKED_THROUGH)
    return tuple(line for line in near if rule.line(line))[: themes_review.CENTRAL]
