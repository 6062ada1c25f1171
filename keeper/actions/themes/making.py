"""Finding themes anew, and laying the person's decisions over them again."""

import hashlib
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from keeper.actions.themes.decided import decided_so_far, left_out, lines_named, mark_of
from keeper.actions.themes.placing import fitted_of, place_new
from keeper.clock import Clock
from keeper.store import Store, people
from keeper.store.ids import new_id
from keeper.store.themes import decisions as theme_decisions
from keeper.store.themes import found as themes
from keeper.store.themes import keeping
from keeper.store.themes import parts as theme_parts
from keeper.store.themes.found import Build, KeptTheme, Outcome
from keeper.study.language.words import LANGUAGES, guess_language
from keeper.study.themes import fitted as theme_model
from keeper.study.themes import rebuilding as study
from keeper.study.themes.fitted import Speech
from keeper.study.themes.further.within import NumberedPart, numbered
from keeper.study.themes.nouns import ENOUGH, BaseTheme, Decision, Earlier, ThemeLine, Themes

NOTHING, REDRAW, REBUILD = "", "redraw", "rebuild"

DUE_LINES, DUE_SHARE = 30, 0.03
"""So many new lines, or such a share of all, ask for a rebuild."""

Progress = Callable[[float, str], None]

_SPOKEN_FROM = 0.1
_SAMPLE = 600


@dataclass(frozen=True)
class _Asked:
    """What a rebuild or redraw is made from."""

    lines: Sequence[ThemeLine]
    decisions: Sequence[Decision]
    mark: str
    words: tuple[str, ...]
    names: tuple[str, ...]
    base: tuple[BaseTheme, ...]
    number: int
    parts: Mapping[int, tuple[int, frozenset[str]]]


def themes_due(store: Store) -> str:
    """Whether to find themes anew (REBUILD), to lay decisions over them again (REDRAW), or NOTHING."""
    build, count = themes.build(store), themes.line_count(store)
    if build is None:
        return REBUILD if count >= ENOUGH or (count and decided_so_far(theme_decisions.standing(store))) else NOTHING
    standing = theme_decisions.standing(store)
    if not build.enough and build.decided != mark_of(standing):
        # With so few lines there is nothing yet to lay decisions over but what the person said themselves.
        return REBUILD
    if count < ENOUGH and not build.enough:
        return REBUILD if themes.new_count(store) and decided_so_far(standing) else NOTHING
    if build.form != theme_model.FORM or build.speech != _speech(left_out(standing), people.names(store)):
        return REBUILD
    if themes.new_count(store) > min(DUE_LINES - 1, DUE_SHARE * count):
        return REBUILD
    return REDRAW if build.enough and build.decided != mark_of(standing) else NOTHING


def of_older_form(store: Store) -> bool:
    """Whether the themes were found by an earlier version of the program, in another way; they are due then."""
    build = themes.build(store)
    return build is not None and build.enough and build.form != theme_model.FORM


def look_again(
    store: Store, clock: Clock, progress: Progress | None = None, stopped: Callable[[], bool] | None = None
) -> str:
    """Do what is due, and return what that was; lines that came meanwhile find their themes too.

    Raises Stopped; then nothing is changed.
    """
    due = themes_due(store)
    if due == REBUILD:
        rebuild_themes(store, clock, progress, stopped)
    elif due == REDRAW:
        redraw_themes(store, clock, progress, stopped)
    place_new(store)
    return due


def rebuild_themes(
    store: Store, clock: Clock, progress: Progress | None = None, stopped: Callable[[], bool] | None = None
) -> Build:
    """Find the themes of all lines anew, keeping their numbers and heeding the person's decisions.

    Everything is kept in one step at the end. Raises Stopped; then nothing is changed.
    """
    asked = _asked(store)
    languages = languages_of(asked.lines)
    step = {"progress": progress, "stopped": stopped}
    found = study.rebuild(
        asked.lines, Earlier(asked.base, asked.number, fitted_of(store, themes.build(store))),
        speech=Speech(languages, asked.words, asked.names), decisions=asked.decisions, **step,
    )  # fmt: skip
    speech = _speech(asked.words, asked.names)
    return _keep(store, asked, found, clock, speech, partial(_redrawn, found, **step), anew=True)


def redraw_themes(
    store: Store, clock: Clock, progress: Progress | None = None, stopped: Callable[[], bool] | None = None
) -> Build | None:
    """Lay the person's decisions over the themes again, without grouping anew.

    Where no themes were ever found, or by another version of the program,
    nothing is done and None returned. Raises Stopped; then nothing is changed.
    """
    build = themes.build(store)
    fitted = fitted_of(store, build)
    if build is None or fitted is None:
        return None
    asked = _asked(store)
    before = Themes(
        asked.base, asked.number, fitted, enough=True, sure=build.sure, loose=themes.loose_in_base(store)
    )
    again = partial(_redrawn, before, progress=progress, stopped=stopped)
    return _keep(store, asked, again(asked), clock, build.speech, again, anew=False)


def _redrawn(before: Themes, asked: _Asked, **step: Callable | None) -> Themes:
    if before.fitted is None:
        return before
    # What was loose stays loose until a rebuild, or an undone decision would
    # leave traces; unless a decision speaks of the line.
    loose = frozenset(before.loose) - lines_named(asked.decisions)
    return study.redraw(
        replace(before, next_number=asked.number), asked.lines, decisions=asked.decisions, loose=loose, sure=before.sure,
        **step,
    )  # fmt: skip


def _asked(store: Store) -> _Asked:
    standing = theme_decisions.standing(store)
    return _Asked(
        lines=[ThemeLine(*row) for row in themes.plain_lines(store)],
        decisions=decided_so_far(standing),
        mark=mark_of(standing),
        words=left_out(standing),
        names=people.names(store),
        base=tuple(BaseTheme(number, *parts) for number, parts in themes.base(store).items()),
        number=themes.next_number(store),
        parts=theme_parts.before(store),
    )


def _keep(store, asked: _Asked, found: Themes, clock: Clock, speech: str, again: Callable, *, anew: bool) -> Build:
    """Keep what was found; first lay over it what the person decided in the meantime."""
    while True:
        outcome = _outcome(asked, found, clock, speech, anew)
        if keeping.keep(store, outcome, lambda mark=asked.mark: mark_of(theme_decisions.standing(store)) == mark):
            return outcome.build
        standing = theme_decisions.standing(store)
        number = max(themes.next_number(store), found.next_number)
        asked = replace(asked, decisions=decided_so_far(standing), mark=mark_of(standing), number=number)
        found = again(asked)


def _outcome(asked: _Asked, found: Themes, clock: Clock, speech: str, anew: bool) -> Outcome:
    build = Build(
        new_id(), clock.moment().utc, len(asked.lines), found.enough, found.sure, asked.mark, speech, theme_model.FORM
    )
    members = [(line, theme.id, near) for theme in found.themes for line, near in theme.members]
    seconds = [(line, theme.id, near, False) for theme in found.themes for line, near in theme.also]
    seconds += [(line, theme, 0.0, True) for line, theme in found.offered.items()]
    base: dict[str, int | None] = dict.fromkeys(line.id for line in asked.lines)
    base.update((line, theme.id) for theme in found.base for line in theme.members)
    return Outcome(
        build=build,
        arrays=found.fitted.to_bytes() if found.fitted else b"",
        themes=[KeptTheme(t.id, t.name, t.named, t.pinned, t.sure, t.terms) for t in found.themes],
        members=members + [(line, None, 0.0) for line in found.loose],
        seconds=seconds,
        base=base if anew else None,
        base_terms={theme.id: theme.terms for theme in found.base},
        read={line.id: line.text for line in asked.lines},
        unsure=found.unsure,
        parts=[(one.number, one.theme, one.name, one.lines) for one in _numbered(asked, found)],
    )


def _numbered(asked: _Asked, found: Themes) -> tuple[NumberedPart, ...]:
    """The parts under numbers of their own; one that the person has made a theme is no part any more."""
    themes_now = {theme.id for theme in found.themes}
    before = {number: known for number, known in asked.parts.items() if number not in themes_now}
    return numbered(found.parts, before, max(asked.number, found.next_number))


def _speech(words: Sequence[str], names: Sequence[str]) -> str:
    return hashlib.sha256("\n".join([*words, "", *names]).encode()).hexdigest()[:16]


def languages_of(all_lines: Sequence[ThemeLine]) -> tuple[str, ...]:
    """The languages in which a good part of the lines is written, the commonest first."""
    some = all_lines[:: max(1, len(all_lines) // _SAMPLE)]
    known = ("en", *(code for code in LANGUAGES if code != "en"))
    counted = Counter(guess_language(line.text, known) for line in some)
    return tuple(code for code, times in counted.most_common() if times >= _SPOKEN_FROM * len(some)) or ("en",)
