"""A page to send as one HTML file that stands alone: no script, nothing fetched, pictures within it.

The tree is built and written by the standard library, so that a person's words are never taken for markup.
"""

import re
from base64 import b64encode
from collections.abc import Callable, Iterable
from datetime import date
from xml.etree import ElementTree
from xml.etree.ElementTree import Element, SubElement

from keeper.book.letters import paragraphs_of
from keeper.dates.written import long_date
from keeper.review.book import BookLine
from keeper.review.sent import SentNight, SentPage, SentPart, SentPhoto, SentTable
from keeper.shipped import resource

ALONE = "default-src 'none'; img-src data:; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"
"""What a browser may do with the page (Content Security Policy): show what is in it, and fetch nothing."""

_NO_TEXT = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]")
"""What HTML does not allow in a text (HTML standard, 13.2.3.5): control codes, surrogates, noncharacters."""

Jpeg = Callable[[SentPhoto], bytes | None]
"""A photo as a JPEG that says nothing of when, where and by whom; None for one that cannot be read."""


def standing_alone(page: SentPage, jpeg: Jpeg) -> bytes:
    """The page as HTML in UTF-8, with a heading of the first rank, one of the second for each part, one of the third for each night."""
    html = Element("html", {"lang": "en"})
    _head(SubElement(html, "head"), page)
    main = SubElement(SubElement(html, "body"), "main")
    _text(SubElement(main, "h1", {"dir": "auto"}), page.title)
    if page.told:
        _text(SubElement(main, "p", {"class": "told"}), page.told)
    for part in page.parts:
        _part(main, part, jpeg)
    return b"<!DOCTYPE html>\n" + ElementTree.tostring(html, encoding="utf-8", method="html") + b"\n"


def _head(head: Element, page: SentPage) -> None:
    SubElement(head, "meta", {"charset": "utf-8"})
    SubElement(head, "meta", {"http-equiv": "Content-Security-Policy", "content": ALONE})
    SubElement(head, "meta", {"name": "viewport", "content": "width=device-width, initial-scale=1"})
    SubElement(head, "meta", {"name": "referrer", "content": "no-referrer"})
    _text(SubElement(head, "title"), page.title)
    style = resource("book/sent/page.css").read_text("utf-8")
    SubElement(head, "style").text = style.replace("#1f2a44", page.ink)


def _part(main: Element, part: SentPart, jpeg: Jpeg) -> None:
    section = SubElement(main, "section")
    if part.title:
        _text(SubElement(section, "h2", {"dir": "auto"}), part.title)
    beside = SubElement(section, "div", {"class": "photos"}) if len(part.photos) > 1 else section
    for photo in part.photos:
        _photo(beside, photo, jpeg(photo))
    for said in part.said:
        _paragraphs(section, said)
    if part.facts:
        _facts(SubElement(section, "dl"), part.facts)
    if part.table:
        _table(section, part.table)
    for night in part.nights:
        _night(section, night, "h3" if part.title else "h2")


def _photo(section: Element, photo: SentPhoto, jpeg: bytes | None) -> None:
    if jpeg is None:
        return
    figure = SubElement(section, "figure")
    source = f"data:image/jpeg;base64,{b64encode(jpeg).decode('ascii')}"
    SubElement(figure, "img", {"src": source, "alt": _plain(photo.alt)})
    if photo.photo.caption:
        _text(SubElement(figure, "figcaption", {"dir": "auto"}), photo.photo.caption)


def _facts(into: Element, facts: Iterable[tuple[str, str]]) -> None:
    for name, told in facts:
        _text(SubElement(into, "dt", {"dir": "auto"}), name)
        _text(SubElement(into, "dd", {"dir": "auto"}), told)


def _table(section: Element, table: SentTable) -> None:
    # One that is wider than the screen is moved sideways by itself, by keys too.
    aside = SubElement(section, "div", {"class": "wide", "role": "region", "tabindex": "0", "aria-label": _plain(table.caption)})
    made = SubElement(aside, "table")
    _text(SubElement(made, "caption"), table.caption)
    heads = SubElement(SubElement(made, "thead"), "tr")
    for head in table.heads:
        _text(SubElement(heads, "th", {"scope": "col"}), head)
    body = SubElement(made, "tbody")
    for name, *values in table.rows:
        row = SubElement(body, "tr")
        _text(SubElement(row, "th", {"scope": "row", "dir": "auto"}), name)
        for value in values:
            _text(SubElement(row, "td"), value)
    if table.told:
        _text(SubElement(section, "p", {"class": "told"}), table.told)


def _night(section: Element, night: SentNight, rank: str) -> None:
    article = SubElement(section, "article")
    heading = SubElement(article, rank)
    _time(heading, night.date)
    if night.place:
        _text(SubElement(article, "p", {"class": "told", "dir": "auto"}), night.place)
    for line in night.lines:
        _line(article, line)


def _time(into: Element, night: date) -> None:
    _text(SubElement(into, "time", {"datetime": night.isoformat()}), long_date(night))


def _line(article: Element, line: BookLine) -> None:
    _text(SubElement(article, "p", {"class": "kind", "dir": "auto"}), line.head)
    _paragraphs(article, line.text, line.language)
    for one in line.later:
        later = SubElement(article, "div", {"class": "later"})
        _text(SubElement(later, "p", {"class": "kind", "dir": "auto"}), one.head)
        _paragraphs(later, one.text, one.language)


def _paragraphs(into: Element, text: str, language: str = "") -> None:
    spoken = {"lang": language} if language and language != "en" else {}
    for paragraph in paragraphs_of(text):
        _text(SubElement(into, "p", {"dir": "auto", **spoken}), paragraph)


def _text(into: Element, text: str) -> None:
    into.text = _plain(text)


def _plain(text: str) -> str:
    return _NO_TEXT.sub("\ufffd", text)
