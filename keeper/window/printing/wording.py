"""The words of the page on which pages to print and to send are made."""

from datetime import date

from keeper.dates.written import day_and_month, month_and_year

WHAT = {
    "month": "A month to fill in",
    "filled": "A month as it was kept",
    "year": "A year to tick",
    "nights": "A page for each night",
    "cards": "Cards with earlier years",
    "ruler": "A test print with rulers",
}
"""What can be printed."""

TOLD = {
    "month": "Numbered nights with your readings as columns, the question, the goals, and room for a photo at 50\u00a0\u00d7\u00a076\u00a0mm.",
    "filled": "The same pages with what is kept of the month.",
    "year": "A stroke for each night, to tick by hand.",
    "nights": "One page for each night of a date, a month or a year, with room for each kind of line.",
    "cards": "Small cards with the lines of a date in earlier years; several on a sheet, with marks to cut at.",
    "ruler": "Shows whether the printer keeps to the true size, and whether fronts and backs meet.",
}

SIZES = {
    "a5": "A5, 148 \u00d7 210 mm", "a6": "A6, 105 \u00d7 148 mm", "a4": "A4, 210 \u00d7 297 mm",
    "half-letter": "Half letter, 5\u00bd \u00d7 8\u00bd in", "letter": "Letter, 8\u00bd \u00d7 11 in", "a7": "A7, 74 \u00d7 105 mm",
    "": "A size of my own",
}  # fmt: skip

GROUNDS = {"ruled": "Rules", "dots": "Dots, 5 mm apart"}

PAPERS = {"same": "As large as the page", "a4": "A4", "letter": "Letter"}

SIDES = {
    "one": "One side",
    "both": "Both sides, by the printer",
    "by hand": "Both sides by hand: fronts, then backs",
    "by hand, last first": "Both sides by hand: backs, last first",
}

PARTS = {
    "question": "Question", "goals": "Goals", "photo": "Photo", "readings": "Readings", "words": "A few words",
    "places": "Places", "marks": "Code for scans",
}  # fmt: skip

PARTS_TOLD = {
    "places": "A column for places; of a month as it was kept, where you were",
    "marks": "A small code that says which month a scanned page is of, and nothing else",
}

PARTS_OF = {
    "month": tuple(PARTS), "filled": tuple(PARTS), "nights": ("question", "readings"), "cards": ("places",), "year": (), "ruler": (),
}  # fmt: skip
"""Which parts can be chosen for what."""

SENT = {"month": "A month", "year": "A year", "theme": "A theme", "place": "A place", "person": "A person"}

FORMATS = {".html": "One HTML file, for any browser", ".pdf": "PDF"}

SENT_TOLD = (
    "One file to give to somebody. Photos go without what they say of when and where. Where you were, readings and what "
    "rests stay out unless you include them; your own words are as you wrote them."
)

STOPPED = "Stopped; nothing was made."


def usual_name(what: str, first: date, last: date) -> str:
    """A name for the file, without its ending."""
    names = {"ruler": "Test print", "year": f"{first.year} to tick", "cards": f"Cards for {day_and_month(first)}"}
    if what in names:
        return names[what]
    if what in ("month", "filled"):
        return f"{month_and_year(first)}{' to fill in' if what == 'month' else ''}"
    return f"Nights from {first.isoformat()}" if first != last else first.isoformat()
