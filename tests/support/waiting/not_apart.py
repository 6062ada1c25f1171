"""Work that a process of its own does for a person, done in this one: another takes a second or more to come up."""


def here(store, act, *given, progress=None, stopped=None):
    """In place of ``actions.apart.apart``."""
    return act(store, *given, *((progress, stopped) if progress else ()))
