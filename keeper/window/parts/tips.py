"""Tips that show a person's words as they are."""

from html import escape


def plain_tip(text: str) -> str:
    """A text for a tip; Qt would take one that looks like markup for markup."""
    return f"<qt>{escape(text)}</qt>" if text else ""
