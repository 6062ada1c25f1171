"""What shows something of the keeper, and asks for it again when that has changed."""


class AsksAgain:
    """Mixed into a page or a part of one that has ``ask``; ``refresh`` is for ``Desk.changed``."""

    def ask(self) -> None:
        """Ask for what is shown."""
        raise NotImplementedError

    def refresh(self) -> None:
        """Ask again, when it is seen; who is not seen asks when it is."""
        if self.isVisible():
            self.ask()
