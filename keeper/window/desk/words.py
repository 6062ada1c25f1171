"""What becomes of words that are typed: put by, sent, kept, or failing. Knows neither Qt nor the store."""

from collections.abc import Hashable


class Words:
    """The words of any number of fields, each under a key of its own.

    A key is anything hashable, such as (night, kind). Texts are compared
    without the blanks round them, as they are kept. What ``to_send``,
    ``to_draft`` and ``draft_to_drop`` hand out is to be written in that order;
    what came of it may be told late.
    """

    def __init__(self) -> None:
        self._typed: dict[Hashable, str] = {}
        self._kept: dict[Hashable, str] = {}
        self._sent: dict[Hashable, list[str]] = {}
        self._failing: set[Hashable] = set()
        self._drafts: dict[Hashable, str] = {}
        self._putting: dict[Hashable, list[str]] = {}
        self._found: set[Hashable] = set()
        # Of those, the ones beside kept words that nobody has touched since.
        self._waiting: set[Hashable] = set()
        # Drafts made or offered here, by their hash, as there are many: the disk may tell of one after it was given up.
        self._ours: set[int] = set()

    def shown(self, key: Hashable, kept: str, draft: str | None, anew: bool) -> str | None:
        """The disk holds this; returns the words for the field, None when it is to be left as it is.

        ``anew`` says that the field holds nothing of this key yet. A draft
        left behind goes before the kept words, unless it says the same.
        """
        first, untouched, was = key not in self._typed, self._untouched(key), self._typed.get(key, "")
        self._kept[key] = kept
        self._heard_of(key, draft, first)
        if (first or (untouched and anew)) and self._is_left_behind(key, draft):
            self._found.add(key)
            self._waiting |= {key} if kept.strip() else set()
            self._drafts[key] = self._typed[key] = draft
            self._ours.add(hash((key, draft)))
        elif first or untouched:
            self._typed[key] = kept
        self._settled(key)
        return self._typed[key] if anew or was.strip() != self._typed[key].strip() else None

    def typed(self, key: Hashable, text: str) -> None:
        """The field holds this."""
        if text != self._typed.get(key):
            self._waiting.discard(key)
        self._typed[key] = text
        self._settled(key)

    def called(self, key: Hashable, now: Hashable) -> None:
        """What went by one key goes by another; its draft, if any, is wanted no more under the old one."""
        for known in (self._typed, self._kept):
            if key in known:
                known[now] = known.pop(key)

    def give_up(self, key: Hashable) -> None:
        """The person wants what is kept, and nothing of what was typed."""
        self.typed(key, self._kept.get(key, ""))

    def meant(self, key: Hashable) -> None:
        """The person wants what the field holds, touched or not."""
        self._waiting.discard(key)

    def typed_in(self, key: Hashable) -> str:
        """What the field holds, without the blanks round it."""
        return self._typed.get(key, "").strip()

    def to_send(self, key: Hashable) -> str | None:
        """The words to write now, else None; they count as sent, and their draft as gone with them.

        A draft left behind beside kept words takes their place only when it
        was touched since, or is ``meant``.
        """
        text = self.typed_in(key)
        if text == self._going_to_be(key) or key in self._waiting:
            return None
        self._sent.setdefault(key, []).append(text)
        self._drafts.pop(key, None)
        return text

    def was_kept(self, key: Hashable, text: str) -> None:
        """This is on disk; a later text is not touched."""
        _answered(self._sent, key, text)
        self._kept[key] = text
        self._failing.discard(key)
        self._settled(key)

    def has_failed(self, key: Hashable, text: str) -> None:
        """This is not on disk; what is typed stays."""
        _answered(self._sent, key, text)
        self._failing.add(key)
        self._settled(key)

    def to_draft(self, key: Hashable) -> str | None:
        """The words to put by as a draft, else None; they count as put by."""
        text = self._typed.get(key, "")
        if not text.strip() or text.strip() == self._going_to_be(key) or text == self._drafts.get(key):
            return None
        self._drafts[key] = text
        self._putting.setdefault(key, []).append(text)
        self._ours.add(hash((key, text)))
        return text

    def draft_to_drop(self, key: Hashable) -> bool:
        """True once, when a draft is wanted no more: its words are kept, or were given up."""
        text = self.typed_in(key)
        if key not in self._drafts or text not in ("", self._kept.get(key, "").strip()):
            return False
        del self._drafts[key]
        return True

    def was_put_by(self, key: Hashable, text: str) -> None:
        """This draft is on disk."""
        _answered(self._putting, key, text)

    def not_put_by(self, key: Hashable, text: str) -> None:
        """This draft is not on disk."""
        _answered(self._putting, key, text)
        if self._drafts.get(key) == text:
            del self._drafts[key]

    def draft(self, key: Hashable) -> str:
        """The draft that the disk will hold once all is written; "" for none."""
        return self._drafts.get(key, "")

    def at_risk(self) -> dict[Hashable, str]:
        """What is unkept and, as far as is known, not put by either."""
        return {key: text for key, text in self.unkept().items()
                if key in self._putting or text != self.draft(key).strip()}  # fmt: skip

    def state(self, key: Hashable) -> str:
        """What can be said of the field: "", "typing", "kept", "failing", or "found" for a draft left behind."""
        if key in self._failing:
            return "failing"
        if not self._untouched(key):
            return "found" if key in self._found else "typing"
        return "kept" if self._kept.get(key, "").strip() else ""

    def unkept(self) -> dict[Hashable, str]:
        """All that is typed, sent or failing and not on disk. A draft left behind is on disk, until it is touched."""
        here = self._typed.keys() - self._waiting
        touched = {key: self._typed[key].strip() for key in here if not self._untouched(key)}
        waiting = {key: text or self._going_to_be(key) for key, text in touched.items()}
        return {key: text for key, text in waiting.items() if text and text != self._on_disk(key)}

    def _heard_of(self, key: Hashable, draft: str | None, first: bool) -> None:
        if first and draft is not None:
            self._drafts[key] = draft
        elif draft is None and key not in self._putting:
            # Somebody took it away: what is typed here is no longer put by.
            self._drafts.pop(key, None)

    def _settled(self, key: Hashable) -> None:
        if self._untouched(key):
            self._failing.discard(key)
            self._found.discard(key)
            self._waiting.discard(key)

    def _on_disk(self, key: Hashable) -> str:
        return "" if key in self._sent else self._kept.get(key, "").strip()

    def _going_to_be(self, key: Hashable) -> str:
        return (self._sent.get(key) or [self._kept.get(key, "")])[-1].strip()

    def _untouched(self, key: Hashable) -> bool:
        kept = self._kept.get(key, "").strip()
        return key not in self._sent and self._typed.get(key, kept).strip() == kept

    def _is_left_behind(self, key: Hashable, draft: str | None) -> bool:
        words = (draft or "").strip()
        return words not in ("", self._kept[key].strip()) and hash((key, draft)) not in self._ours


def _answered(waiting: dict[Hashable, list[str]], key: Hashable, text: str) -> None:
    # Answers come in the order in which it was sent.
    texts = waiting.get(key, [])
    if text in texts:
        texts.remove(text)
    if not texts:
        waiting.pop(key, None)
