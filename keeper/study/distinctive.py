"""What sets one part of a person's lines apart from all the rest.

Log-odds with an informative Dirichlet prior: B. L. Monroe, M. P. Colaresi and
K. M. Quinn, "Fightin' Words", Political Analysis 16 (2008), equations 16 to
22. The log-likelihood ratio: T. Dunning, Computational Linguistics 19 (1993).
"""

from collections.abc import Hashable, Iterable
from dataclasses import dataclass
from math import log, sqrt

WORDS_OF_PRIOR = 2_000.0
"""Words the prior is worth when a year is set apart."""

WORDS_OF_MONTH_PRIOR = 1_000.0
"""Words the prior is worth when a month is: about a month of a line or two a night."""

LINES_OF_PRIOR = 30.0
"""Lines the prior is worth, where themes are counted by lines."""

SURE_Z = 2.58
"""One in a hundred by chance, either way."""

SURE_G2 = 6.63
"""The same for G2, chi-squared with one degree of freedom."""

NIGHTS_NEEDED = 5
"""Nights kept below which nothing is said to set a month apart."""

NIGHTS_OF_EACH = 3
"""Nights on which a thing must come up: one long line is not enough."""

_FULL_ENOUGH = 10


@dataclass(frozen=True, slots=True)
class LogOdds:
    """How much more the odds of a thing are here than there, and how sure that is."""

    delta: float
    variance: float

    @property
    def z(self) -> float:
        """The difference in standard errors (equation 22)."""
        return self.delta / sqrt(self.variance)


@dataclass(frozen=True, slots=True)
class Counted:
    """A word or theme: times here, nights here on which it came up, times everywhere (here included)."""

    what: Hashable
    here: int
    nights: int
    everywhere: int


@dataclass(frozen=True, slots=True)
class Apart:
    """Something that sets a part apart; ``z`` orders them."""

    what: Hashable
    here: int
    nights: int
    z: float


def log_odds(here: int, all_here: int, there: int, all_there: int, prior: float, all_prior: float) -> LogOdds:
    """Log-odds ratio of a thing here against there (equations 16 and 20).

    ``prior`` are its pseudo-counts, of ``all_prior`` in all; both parts get
    the same. Raises ValueError for a prior that is not above zero.
    """
    if not 0 < prior < all_prior:
        raise ValueError("the prior must lie between zero and its whole")
    one, other = here + prior, there + prior
    delta = log(one / (all_here + all_prior - one)) - log(other / (all_there + all_prior - other))
    return LogOdds(delta, 1 / one + 1 / other)


def g2(here: int, all_here: int, there: int, all_there: int) -> float:
    """Dunning's -2 log lambda for two shares, here of all_here and there of all_there."""
    if not all_here or not all_there:
        return 0.0
    share = (here + there) / (all_here + all_there)
    cells = (
        (here, all_here * share), (all_here - here, all_here * (1 - share)),
        (there, all_there * share), (all_there - there, all_there * (1 - share)),
    )  # fmt: skip
    return 2 * sum(seen * log(seen / expected) for seen, expected in cells if seen)


def set_apart(
    counted: Iterable[Counted], all_here: int, all_everywhere: int, nights: int, prior: float = WORDS_OF_PRIOR,
    most: int = 12, nights_of_each: int = NIGHTS_OF_EACH,
) -> tuple[Apart, ...]:  # fmt: skip
    """What is surely more here than in the rest, the surest first.

    The prior are the person's own usual shares, worth ``prior`` counts, so a
    thin part has to show much to be heard. ``nights`` are those kept here:
    nothing for fewer than NIGHTS_NEEDED, nor where there is no rest to compare
    with.
    """
    all_there = all_everywhere - all_here
    if nights < NIGHTS_NEEDED or all_there <= 0:
        return ()
    judged = (_judged(one, all_here, all_there, prior) for one in counted if one.nights >= nights_of_each)
    sure = [one for one in judged if one.z >= SURE_Z]
    return tuple(sorted(sure, key=lambda one: (-one.z, str(one.what)))[:most])


def _judged(one: Counted, all_here: int, all_there: int, prior: float) -> Apart:
    # An index may count a thing differently; never less than what is here.
    there = min(max(one.everywhere - one.here, 0), all_there)
    usual = prior * (one.here + there) / (all_here + all_there)
    if usual >= prior or g2(one.here, all_here, there, all_there) < SURE_G2:
        return Apart(one.what, one.here, one.nights, 0.0)
    return Apart(one.what, one.here, one.nights, log_odds(one.here, all_here, there, all_there, usual, prior).z)


def nights_of_each(nights: int) -> int:
    """On how many nights of a month a thing must come up to set it apart: more in a thin one."""
    return NIGHTS_OF_EACH if nights < _FULL_ENOUGH else NIGHTS_OF_EACH - 1
