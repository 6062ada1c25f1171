"""What stands for a month and for a year: proposals, and what the person made of them."""

from collections.abc import Callable, Iterable, Sequence
from datetime import date

from keeper.model import Line, MonthPage, Photo, YearAnswer, YearChoice, YearPage
from keeper.review.year import LINES_OF_A_MONTH, LINES_OF_THE_YEAR, YearMonth
from keeper.study.awake import Awake
from keeper.study.choosing import Bag, choose

Find = Callable[[str], Photo | None]
"""Gives the photo of this id, if it is awake; it may be of any night."""

Propose = Callable[[Sequence[Line], int], tuple[Line, ...]]
"""Gives the lines, at most so many, that stand for some, oldest first."""


def awake_photos(photos: Iterable[tuple[date, Photo]], rule: Awake) -> tuple[tuple[date, Photo], ...]:
    """The photos that may be brought up, each once, on its first night."""
    found: dict[str, tuple[date, Photo]] = {}
    for night, photo in photos:
        if rule.photo(photo, [night]):
            found.setdefault(photo.id, (night, photo))
    return tuple(found.values())


def month_of(
    month: date,
    page: MonthPage,
    decided: YearPage,
    lines: Sequence[Line],
    photos: Sequence[Photo],
    find: Find,
    propose: Propose,
) -> YearMonth:
    """What stands for a month, from its lines and photos awake, oldest first."""
    return YearMonth(
        month,
        len({line.night for line in lines}),
        photo_of(month.month, page, decided, photos, find),
        lines_of(month.month, decided, lines, propose, LINES_OF_A_MONTH),
        page.words,
        month.month in decided.settled,
    )


def photo_of(month: int, page: MonthPage, decided: YearPage, photos: Sequence[Photo], find: Find) -> Photo | None:
    """The photo of a month: the person's pick for the year, the month page's, or its first."""
    chosen = choices(decided, month, "photo")
    if any(one.decision == "dropped" for one in chosen):
        return None
    wanted = [one.ref for one in chosen] + [page.photo_id] * bool(page.photo_id)
    found = (find(ref) for ref in wanted)
    return next((photo for photo in found if photo), photos[0] if photos else None)


def lines_of(month: int, decided: YearPage, lines: Sequence[Line], propose: Propose, count: int) -> tuple[Line, ...]:
    """The lines of a month (0: of the year): those decided on, else a proposal from ``lines``; oldest first."""
    made = choices(decided, month, "line")
    if not made:
        return propose(lines, count)
    shown = {one.ref for one in made if one.decision != "dropped"}
    return tuple(line for line in lines if line.id in shown)[:count]


def proposed(lines: Sequence[Line], bags: Callable[[Line], Bag], count: int) -> tuple[Line, ...]:
    """The lines that stand for these, oldest first; all of them when there are few."""
    if len(lines) <= count:
        return tuple(lines)
    chosen = choose([bags(line) for line in lines], count)
    return tuple(lines[at] for at in sorted(chosen))


def year_lines(decided: YearPage, months: Sequence[YearMonth], lines: Sequence[Line], propose: Propose) -> tuple[Line, ...]:
    """The lines that stand for a year.

    Months that the person went through give the lines kept there, others all.
    """
    made = choices(decided, 0, "line")
    if made:
        return lines_of(0, decided, lines, propose, LINES_OF_THE_YEAR)
    kept = {line.id for month in months if month.settled for line in month.lines}
    pool = [line for line in lines if line.id in kept or line.night.month not in decided.settled]
    return propose(pool, LINES_OF_THE_YEAR)


def choices(decided: YearPage, month: int, what: str) -> list[YearChoice]:
    """What was decided of a month's photo or lines, in order."""
    return [one for one in decided.choices if one.month == month and one.what == what]


def with_replaced(shown: Sequence[Line], old: str, new: str, made: Sequence[YearChoice], month: int) -> list[YearChoice]:
    """The choices once one of the lines shown has given way to another ("": to none).

    ``old`` may be "" for one more line.
    """
    was = {one.ref: one for one in made}
    kept = [was.get(line.id, YearChoice(month, "line", line.id)) for line in shown if line.id != old]
    added = [YearChoice(month, "line", new, "changed")] if new and all(one.ref != new for one in kept) else []
    # Where lines were decided on, none is proposed beside them: it is enough to say which one went.
    gone = [YearChoice(month, "line", old, "dropped")] if old and old != new else []
    return [*kept, *added, *gone]


def answered(decided: YearPage) -> tuple[YearAnswer, ...]:
    """The answers to the closing questions of a year.

    In the person's order of the questions, where they are the person's own;
    what answers a question that was left out is not among them.
    """
    if decided.questions is None:
        return decided.answers
    told = {one.question: one for one in decided.answers}
    return tuple(told[question] for question in decided.questions if question in told)
