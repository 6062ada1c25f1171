"""What is left of a broken keeper, in words: counted and told apart."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime

from keeper.dates import written
from keeper.store.damage.carving import Carved
from keeper.store.damage.mending import Survey

NAMED = 6
"""So many of those that are missing are named; of more it is said how many."""

_NAMES = {
    "about": "when it was begun", "setting": "settings", "place": "places", "photo": "photos", "night": "nights",
    "draft": "drafts", "draft_of": "drafts", "wording": "earlier wordings", "night_photo": "photos",
    "tracker": "readings", "reading": "readings", "month_page": "months", "goal": "goals", "person": "people",
    "resting": "what rests", "kind": "kinds of lines", "year_page": "years", "year_month": "years",
    "year_choice": "years", "year_answer": "years", "lot": "photos", "lot_photo": "photos", "lot_place": "photos",
    "place_merge": "places", "place_page": "places", "place_merge_night": "places", "cycle_phase": "phases of cycles",
    "trying": "what is tried", "scan": "pages of the notebook", "from_paper": "what came from paper", "later_word": "later words",
    "kept_search": "searches that are kept",
    "person_about": "people", "person_day": "days to remember", "photo_person": "who is on photos",
    "brought_up": "what was brought up",
}  # fmt: skip


@dataclass(frozen=True)
class SurveyTold:
    """Sentences on a survey: what is taken without a question, and what is not there."""

    saved: tuple[str, ...]
    lacking: tuple[str, ...]


def told(survey: Survey) -> SurveyTold:
    """The survey in sentences."""
    return SurveyTold(tuple(_saved(survey)), tuple(_lacking(survey)))


def _saved(survey: Survey) -> Iterator[str]:
    choice = survey.choice
    yield f"{_lines(len(choice.right))} as {_it(len(choice.right))} written." if choice.right else "No line could be proved whole."
    if many := len(choice.unproved):
        yield f"{_lines(many)} from before lines could be proved; {'it looks' if many == 1 else 'they look'} whole."
    if many := len(choice.from_backup):
        stand = "stands" if many == 1 else "stand"
        yield f"{written.counted(many, 'line')} {stand} only in the backup of {_made(survey)}."
    elif survey.backup:
        yield f"The backup of {_made(survey)} has no line that is not in the file."
    else:
        yield "There is no backup of this keeper that is whole."


def _made(survey: Survey) -> str:
    return written.long_date(datetime.fromtimestamp(survey.backup.stat().st_mtime).date())


def _lacking(survey: Survey) -> Iterator[str]:
    missing = survey.choice.missing
    if missing:
        named = "; ".join(key_told(*key) for key in missing[:NAMED])
        more = f"; and {written.number(len(missing) - NAMED)} others" if len(missing) > NAMED else ""
        yield f"{'1 line is' if len(missing) == 1 else f'{written.number(len(missing))} lines are'} missing: {named}{more}."
    if survey.lost_pages:
        yield f"The end of the file is missing, {written.counted(survey.lost_pages, 'page')} of it. Lines that stood there may not be counted here."
    if survey.broken_pages:
        yield f"{written.counted(survey.broken_pages, 'page')} of the file can no longer be made out. More may be missing than is counted here."
    if parts := list(dict.fromkeys(_NAMES[one.table] for one in survey.tables if not one.whole and one.table in _NAMES)):
        yield f"Not all could be read of: {', '.join(parts)}."
    if not survey.tables:
        yield "Besides lines and earlier wordings nothing could be read in the file."


def key_told(night: str, kind: str) -> str:
    """A night and a kind, as far as they are known."""
    try:
        day = written.short_date(date.fromisoformat(night))
    except ValueError:
        day = "a night that is not known"
    return f"{day}, {kind}" if kind and len(kind) < 36 else day


def in_place_of(survey: Survey, one: Carved) -> str:
    """The words that a doubtful line would take the place of; "" for none."""
    return next((line.text for line in survey.choice.lines if line.key == one.key), "")


def can_be_taken(one: Carved) -> bool:
    """Whether it is known to which night and kind a doubtful line belongs."""
    return bool(one.night and one.kind and one.text.strip())


def takeable(lines: Iterable[Carved]) -> tuple[Carved, ...]:
    """Those of which it is known, one for each night and kind."""
    return tuple({one.key: one for one in lines if can_be_taken(one)}.values())


def _lines(many: int) -> str:
    return "1 line is" if many == 1 else f"{written.number(many)} lines are"


def _it(many: int) -> str:
    return "it was" if many == 1 else "they were"
