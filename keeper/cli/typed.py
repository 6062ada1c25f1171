"""What a person types after a verb, read and checked."""

import sys

import click

from keeper.actions.writing import is_kind
from keeper.errors import UnknownThing, UnreadableText


class WordsParam(click.ParamType):
    """Words to keep or to look for."""

    name = "text"

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """The words. Raises UnreadableText for bytes the system could not read."""
        # Python hands over bytes that are no text as lone surrogates.
        if any("\ud800" <= letter <= "\udfff" for letter in value):
            raise UnreadableText(
                "These words could not be read: they are not in the encoding of this terminal. Nothing was changed."
            )
        return value


class DateParam(WordsParam):
    """A date, still as typed: what "tonight" is, the keeper's own settings say."""

    name = "date"


class KindParam(click.ParamType):
    """A kind of line, or how its name begins."""

    name = "kind"

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """The kind's full name."""
        try:
            return is_kind(value)
        except UnknownThing as error:
            self.fail(str(error), param, ctx)


WORDS, DATE, MONTH, KIND = WordsParam(), DateParam(), DateParam(), KindParam()


def came_by_pipe() -> bool:
    """Whether standard input is something other than a person at a terminal."""
    return not sys.stdin.buffer.isatty()


def from_outside(asked: str = "Write your line") -> str:
    """All that comes in by standard input, as text.

    Takes UTF-8, else the terminal's own encoding. Raises UnreadableText when it
    is neither.
    """
    stream = sys.stdin.buffer
    if stream.isatty():
        click.echo(f"{asked}; end with Enter and Ctrl-D (on Windows Ctrl-Z, Enter).", err=True)
    came = stream.read()
    for encoding in ("utf-8-sig", sys.stdin.encoding):
        try:
            return came.decode(encoding).replace("\r\n", "\n").rstrip("\n")
        except UnicodeDecodeError:
            continue
    raise UnreadableText("The piped input is not UTF-8 text. Nothing was changed.")
