"""How giving is spoken of in the window."""

HOW = (
    "All that you kept, or a part of it, in a folder of your choosing and in formats that anybody can read, without this "
    "program and in fifty years. All of it is read back before it counts as given."
)

PARTS = (
    ("database", "The database", "Everything in one file, as the keeper has it."),
    ("text", "The words as text", "A file for each year, to be read by anybody."),
    ("tables", "Tables", "Lines, readings, places, goals and more, for a spreadsheet."),
    ("json", "Everything as JSON", "From this a keeper takes it in again, without loss."),
    ("calendar", "A journal for calendars", "The lines, each on its day."),
    ("globe", "Stays and journeys", "As points and lines, for maps."),
    ("photos", "Photos", "As they came, with their captions in the texts."),
)
"""Each part, what it is called, and what that is."""

RECEIVE = "What was given once can be taken in here, or by another keeper: what is new comes, and what differs is kept beside."

STAYS = (
    "What is here stays, and the archive\u2019s words become an earlier wording. Where you tick a line, it is the other way round."
)

STOPPED = "Stopped. Nothing was given."

BESIDE = (
    "What came with an archive and says something else than what is here, where only one can stand. Words of lines are not "
    "among them: they are earlier wordings on their nights."
)
NOTHING_BESIDE = (
    "Nothing yet. What comes with an archive and says something else than what is here will be shown here; words of lines "
    "are earlier wordings on their nights."
)
