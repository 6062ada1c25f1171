"""The page for a clinician in words: its title, its counts, and how they were come by."""

from datetime import date

from keeper.dates.written import counted, full_date, number, percent, shortest
from keeper.model import Tracker
from keeper.review.clinician.page import BY_MONTH, BY_NIGHT, ClinicianPage, ClinicianReading, nights_in_point

HEADS = ("Reading", "Nights noted", "Middle", "Middle half", "Lowest and highest")
"""Over the columns of the counts."""

STANDS_OUT, TRIED = "What stands out", "What was tried"
"""Over what is said."""

NONE_SAID = "Nothing that was asked of these readings stands out from chance."


def title(first: date, last: date) -> str:
    """Such as "Readings, 3 June to 14 November 2026"."""
    return f"Readings, {full_date(first)} to {full_date(last)}"


def name(tracker: Tracker) -> str:
    """A reading and its unit, as "walked (km)"."""
    unit = "hours" if tracker.form == "hours" else tracker.unit
    return f"{tracker.name} ({unit})" if unit else tracker.name


def scale(reading: ClinicianReading) -> str:
    """What stands beside a strip."""
    if reading.tracker.form == "mark":
        noted = reading.noted
        return f"{number(sum(noted))} of {number(len(noted))}"
    return f"{_short(reading.low)} to {_short(reading.high)}"


def counts(reading: ClinicianReading, nights: int) -> tuple[str, ...]:
    """A row of the counts, below HEADS."""
    noted, its = reading.noted, reading.spread
    of = f"{number(len(noted))} of {number(nights)}"
    if reading.tracker.form == "mark":
        yes = f"yes on {number(sum(noted))}, {percent(its.middle)}"
        return (name(reading.tracker), of, yes, f"{percent(its.low)} to {percent(its.high)} *", "")
    spell = _hours if reading.tracker.form == "hours" else _short
    ends = f"{spell(min(noted))}, {spell(max(noted))}"
    return (name(reading.tracker), of, spell(its.middle), f"{spell(its.low)} to {spell(its.high)}", ends)


def _short(value: float) -> str:
    return shortest(value)


def _hours(value: float) -> str:
    minutes = round(value * 60)
    return f"{minutes // 60}:{minutes % 60:02}"


def below_counts(page: ClinicianPage) -> str:
    """What is said of the counts."""
    told = ["The middle is the median; between the ends of the middle half lie half of the nights."]
    if any(one.tracker.form == "mark" for one in page.readings):
        told.append("* Of what is noted as yes or no, between what the share of nights lies in 95 % of cases (Wilson 1927).")
    return " ".join(told)


def of_strips(page: ClinicianPage) -> str:
    """What is said of the strips."""
    many = nights_in_point(len(page.nights))
    told = f"{counted(len(page.nights), 'night')}. "
    if many == BY_NIGHT:
        return told + "A strip is bare where nothing was noted."
    each = "about a month" if many == BY_MONTH else "a week"
    return f"{told}Each point is the middle of {each}; of what is noted as yes or no, the share of nights."


def said_head(page: ClinicianPage) -> str:
    """What stands over what is said; "" where nothing is."""
    tried, found = any(one.tried for one in page.said), page.none or any(not one.tried for one in page.said)
    if tried and found:
        return f"{STANDS_OUT}, and {TRIED[:1].lower()}{TRIED[1:]}"
    return STANDS_OUT if found else TRIED if tried else ""


def method(patterns: bool, tryings: bool) -> str:
    """In one sentence how all was come by."""
    told = ["The readings were noted night by night by the person they are of"]
    if patterns:
        told.append(
            "what goes together was asked of all pairs, over all nights noted so far, with season, slow drift and weekday taken out and the likeness of "
            "neighbouring nights allowed for, and is told only where about 5 % of all that is told may be chance "
            "(Benjamini & Hochberg 1995)"
        )
    if tryings:
        told.append("what was tried was compared by blocks of nights drawn by lot (randomization test; Edgington & Onghena 2007)")
    return "; ".join(told) + "."
