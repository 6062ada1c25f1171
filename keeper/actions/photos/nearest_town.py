"""The town nearest to where a photo was taken, where the list of towns can be had."""

from contextlib import suppress

from keeper.errors import KeeperError
from keeper.town import Town


def nearest(latitude: float, longitude: float) -> Town | None:
    """The town nearest to a point in degrees; None where the list cannot be unpacked.

    For a lane or the command line: the very first time it takes a second or two.
    """
    from keeper.actions.places import towns

    # A photo is taken in all the same; only the offer of a town falls away.
    with suppress(KeeperError):
        return towns.nearest_town(towns.towns_folder(), latitude, longitude)
    return None
