"""What a person decided of a year."""

from dataclasses import dataclass


@dataclass(frozen=True)
class YearChoice:
    """A photo or a line that the person looked at, sitting down with a year.

    ``month`` is 1 to 12, or 0 for the lines that stand for the whole year;
    ``what`` is ``photo`` or ``line``, ``ref`` its id. ``decision`` is ``kept``
    (as it was proposed), ``changed`` (the person's own pick) or ``dropped``
    (not to be shown).
    """

    month: int
    what: str
    ref: str
    decision: str = "kept"


@dataclass(frozen=True)
class YearAnswer:
    """A closing question of a year as it was asked, and the person's answer."""

    question: str
    answer: str


@dataclass(frozen=True)
class YearPage:
    """What the person decided of a year.

    ``state`` is "" (never sat down with), ``begun`` or ``closed``. ``at`` is
    where the sitting is taken up again: a month, or 13 for the closing
    questions. ``settled`` are the months gone through. ``questions`` are the
    person's own closing questions in their order; None: those of the program.
    """

    year: int
    state: str = ""
    at: int = 1
    settled: frozenset[int] = frozenset()
    choices: tuple[YearChoice, ...] = ()
    answers: tuple[YearAnswer, ...] = ()
    questions: tuple[str, ...] | None = None
