"""Tips that show a person's words as they are."""


def plain_tip(text: str) -> str:
    """A text for a tip; Qt would take one that looks like markup for markup."""
    # Not before one can type: it has a table of all the names of letters.
    from html import escape

    return f"<qt>{escape(text)}</qt>" if text else ""
