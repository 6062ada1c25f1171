"""Sentences about people, days to remember and what was found of somebody."""

from datetime import date

from keeper.actions.one_person.days import titled
from keeper.actions.one_person.page import PersonPage
from keeper.actions.people import Named
from keeper.dates.distance import apart
from keeper.dates.yearly import falls
from keeper.model import DayToRemember
from keeper.window.desk import wording


def row(one: Named) -> str:
    """Lines and last night of somebody, in few words."""
    if one.last is None:
        parts = ["in no line yet"]
    else:
        parts = [wording.counted(one.lines, "line"), f"last {wording.shorter_date(one.last)}"]
    others = one.person.names[1:]
    parts += [f"also {', '.join(others)}"] if others else []
    parts += ["resting"] if one.person.resting else []
    return " \u00b7 ".join(parts)


def named(view: PersonPage, tonight: date) -> str:
    """When somebody was named first and last, and in how many lines."""
    if not view.nights:
        return "No line has this name yet."
    first, last = view.nights[0], view.nights[-1]
    lines = wording.counted(len(view.numbers), "line")
    nights = f" on {wording.counted(len(view.nights), 'night')}" if len(view.nights) != len(view.numbers) else ""
    if first == last:
        return f"{lines}{nights} \u00b7 {wording.full_date(first)}, {wording.how_long_ago(first, tonight)}"
    return (
        f"{lines}{nights} \u00b7 first {wording.full_date(first)}, last {wording.full_date(last)}"
        f" \u00b7 {apart(first, last)} from one to the other"
    )


def day(one: DayToRemember) -> str:
    """Such as "12 March 1958" or "12 March", with how it was said in another calendar."""
    told = date(one.year or 2000, one.month, one.day) if one.year is None or exists(one) else date(2000, one.month, one.day)
    when = wording.full_date(told) if one.year and exists(one) else wording.day_and_month(told)
    return f"{when} \u00b7 {one.typed}" if one.typed else when


def exists(one: DayToRemember) -> bool:
    """Whether its own year has the day."""
    return one.year is not None and (not one.is_leap_day or falls(2, 29, False, one.year).day == 29)


def in_other_years(one: DayToRemember) -> str:
    """Where a 29 February falls in other years."""
    return "1 March in other years" if one.after else "28 February in other years"


def of_day(one: DayToRemember) -> str:
    """What a day is called."""
    return titled(one.what)


def months(view: PersonPage) -> str:
    """The months in words, for who does not see the strip."""
    if not view.months:
        return ""
    most = max(view.months, key=lambda month: (view.months[month], month))
    return (
        f"{wording.counted(len(view.months), 'month')} with lines, the most in {wording.month_and_year(most)}: "
        f"{wording.counted(view.months[most], 'line')}."
    )
