"""Keepers made by hypothesis: a few nights with whatever a person may have kept of them, in all scripts."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

from hypothesis import strategies as st

from keeper.model import Draft, Goal, LineKind, Moment, MonthPage, Person, Place, Reading, Tracker
from keeper.store import Store, kinds, lines, month_pages, nights, people, resting, trackers, year_pages
from keeper.store import settings as kept_settings
from keeper.store.moments import utc_text
from keeper.store.places import named as places
from keeper.store.themes import decisions

BEGIN = date(2026, 2, 26)

WORDS = st.text(
    st.one_of(
        st.sampled_from("aZ \u00e9\u00df\u0141\u03a9\u0436\u05d0\u0627\u0939\u0e01\u4e2d\u304b\U0001f3b9\u200d\u0301=+-@'\",;:\\#>\n\t"),
        st.characters(exclude_categories=("Cs", "Cc")),
    ),
    min_size=1, max_size=40,
).filter(str.strip)  # fmt: skip
"""What a person may write: letters of all scripts, signs that formats take for their own, breaks of rows."""

_NIGHTS = st.integers(0, 40).map(lambda days: BEGIN + timedelta(days))
_SMALL = st.integers(0, 3)


@dataclass(frozen=True)
class Diary:
    """What is to be kept; numbers stand for the one of that number."""

    lines: list[tuple[date, int, str]]
    reworded: list[tuple[date, int, str]]
    places: list[tuple[str, float, float]]
    where: list[tuple[date, int]]
    readings: list[tuple[date, int, float]]
    goals: list[tuple[int, str, str]]
    question: str
    people: list[str]
    resting: list[int]
    drafts: list[tuple[date, int, str]]
    answer: str
    kind: str
    word: str


DIARIES = st.builds(
    Diary,
    lines=st.lists(st.tuples(_NIGHTS, _SMALL, WORDS), max_size=8),
    reworded=st.lists(st.tuples(_NIGHTS, _SMALL, WORDS), max_size=3),
    places=st.lists(st.tuples(WORDS, st.floats(-90, 90), st.floats(-180, 180)), max_size=3),
    where=st.lists(st.tuples(_NIGHTS, _SMALL), max_size=5),
    readings=st.lists(st.tuples(_NIGHTS, _SMALL, st.floats(0, 24)), max_size=6),
    goals=st.lists(st.tuples(_SMALL, WORDS, st.sampled_from(("set", "done", "carried on", "let go"))), max_size=3),
    question=WORDS, people=st.lists(WORDS, max_size=2), resting=st.lists(_SMALL, max_size=2),
    drafts=st.lists(st.tuples(_NIGHTS, _SMALL, WORDS), max_size=2), answer=WORDS, kind=WORDS, word=WORDS,
)  # fmt: skip


def _moment(night: date, minute: int = 0) -> Moment:
    return Moment(datetime.combine(night, time(21, minute), UTC), 60, "Europe/Berlin")


def keep(store: Store, diary: Diary) -> None:
    """Keep all of it."""
    own = kinds.add(store, LineKind("", 0, diary.kind.strip()))
    keys = ("gratitude", "memory", "reflection", own.key)
    for place, (night, kind, text) in enumerate([*diary.lines, *diary.reworded]):
        lines.keep(store, night, keys[kind], text, _moment(night, place))
    _keep_places(store, diary)
    _keep_readings(store, diary)
    for month, text, outcome in diary.goals:
        first = date(2026, 1 + month, 1)
        page = month_pages.one(store, first)
        month_pages.keep(store, MonthPage(first, diary.question, diary.answer, goals=(*page.goals, Goal("", text, outcome))))
    for name in diary.people:
        people.add(store, Person("", name))
    for number in diary.resting:
        resting.rest_span(store, BEGIN + timedelta(number), BEGIN + timedelta(number + 1))
    for night, kind, text in diary.drafts:
        lines.keep_draft(store, Draft(night, keys[kind], text, _moment(night).utc), _moment(night))
    year_pages.answer(store, 2026, diary.question, diary.answer)
    decisions.add(store, "leave out", {"word": diary.word}, _moment(BEGIN).utc)
    kept_settings.write(store, {"ink": "sepia"})


def _keep_places(store: Store, diary: Diary) -> None:
    ids = [places.add(store, Place("", name, latitude=north, longitude=east)).id for name, north, east in diary.places]
    for night, number in diary.where if ids else ():
        nights.set_place(store, night, ids[number % len(ids)], "said", utc_text(_moment(night).utc))


def _keep_readings(store: Store, diary: Diary) -> None:
    ids = [
        trackers.add(store, Tracker("", f"{form} {diary.kind}", form, low, high, "", "neither", BEGIN))
        for form, low, high in (("scale", 0.0, 24.0), ("hours", None, None), ("amount", None, None), ("mark", None, None))
    ]
    trackers.note(store, [Reading(night, ids[number], value if number != 3 else 1.0) for night, number, value in diary.readings])
