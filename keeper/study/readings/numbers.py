"""Numbers as a person types them: with a point or a comma, thousands parted or not."""

import re

from keeper.dates import written

_PLAIN = r"[-+\u2212]?(?:\d+(?:[.,]\d*)?|[.,]\d+)"
_PARTED = r"[-+\u2212]?\d{{1,3}}(?:{sign}\d{{3}})+"
_SPACES = r"(?<=\d)[ \u00a0\u2009\u202f'\u2019](?=\d{3}(?!\d))"


def number(typed: str) -> float | None:
    """The number that is meant, or None.

    A point and a comma both begin decimals, but the sign that parts thousands
    where the person lives parts them before three digits: 10,000 steps.
    """
    text = re.sub(_SPACES, "", typed.strip())
    sign = written.habits().thousands
    # "0,750" is never thousands.
    if sign in (",", ".") and re.fullmatch(_PARTED.format(sign=re.escape(sign)), text) and text.lstrip("-+\u2212")[0] != "0":
        text = text.replace(sign, "")
    if not re.fullmatch(_PLAIN, text):
        return None
    return float(text.replace(",", ".").replace("\u2212", "-"))
