"""Libraries of tests that take long to come: every process reads all tests, few of them run those that need these."""

from importlib import import_module


class WhenUsed:
    """Stands for a module, which is brought in by the first test that asks anything of it."""

    def __init__(self, name: str) -> None:
        self._name = name

    def __getattr__(self, what: str):
        if what.startswith("_"):
            # Asked by what collects tests.
            raise AttributeError(what)
        return getattr(import_module(self._name), what)
