"""What is said of readings, in one place: a record, and no more than that."""

LABEL = (
    "A record, not a diagnosis. What goes together in it need not be cause and effect. "
    "About your health, please ask a licensed clinician."
)
"""Stands small wherever readings are shown."""

OF_THE_BODY = (
    "A record, not a diagnosis: it cannot tell what ails you, and nothing in it is fit for contraception or for changing "
    "a treatment. About your health, please ask a licensed clinician. If low mood lasts, talk to someone you trust or "
    "to a clinician; if you may be in danger, call the emergency number where you are."
)
"""Is said once, when something of the body or the mood is noted for the first time, and stands in the help."""


NEVER_TRIED = (
    "Never try a medicine, a treatment or anything that a clinician prescribed: neither with it nor without it. "
    "About these, please ask the clinician."
)
"""Stands where something is to be tried, and has to be confirmed before it begins."""

def under(body: bool) -> str:
    """What stands under readings on the pages of months and years, and in the book; ``body``: of the body or the mood."""
    return OF_THE_BODY if body else LABEL
