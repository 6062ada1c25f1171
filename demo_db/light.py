"""The light of an hour: how high the sun stands, and what that does to colours."""

import math
import random
from dataclasses import dataclass
from datetime import UTC, datetime

from demo_db.paint import Colour, mix, shade

_SKIES = {
    "night": [
        [(16, 22, 46), (30, 46, 80), (62, 84, 112)],
        [(22, 24, 48), (44, 50, 88), (96, 92, 116)],
    ],
    "dusk": [
        [(58, 76, 116), (150, 120, 146), (238, 172, 130)],
        [(72, 94, 128), (190, 140, 142), (246, 196, 148)],
        [(46, 74, 104), (110, 128, 146), (222, 190, 150)],
    ],
    "low": [
        [(116, 158, 184), (206, 200, 180), (248, 214, 158)],
        [(136, 160, 178), (222, 196, 172), (246, 206, 166)],
    ],
    "summer": [
        [(84, 148, 190), (146, 194, 212), (216, 228, 216)],
        [(104, 164, 186), (170, 206, 204), (232, 230, 208)],
    ],
    "spring": [
        [(122, 174, 196), (178, 208, 210), (234, 230, 212)],
        [(150, 180, 190), (204, 212, 204), (238, 226, 206)],
    ],
    "autumn": [
        [(124, 146, 162), (178, 184, 182), (230, 210, 182)],
        [(146, 152, 156), (196, 190, 178), (236, 204, 168)],
    ],
    "winter": [
        [(142, 160, 178), (188, 198, 206), (230, 224, 218)],
        [(160, 170, 180), (204, 206, 208), (236, 222, 208)],
    ],
    "grey": [
        [(128, 140, 148), (164, 172, 176), (200, 202, 198)],
        [(112, 126, 138), (150, 160, 166), (192, 194, 190)],
    ],
}

_ON_THINGS = {
    # how bright, what colour the air lends, how much of it
    "night": (0.40, (34, 46, 88), 0.42),
    "dusk": (0.72, (128, 84, 112), 0.26),
    "low": (0.98, (248, 188, 116), 0.17),
    "summer": (1.03, (206, 226, 224), 0.06),
    "spring": (1.02, (214, 226, 214), 0.08),
    "autumn": (0.94, (214, 188, 150), 0.14),
    "winter": (0.93, (188, 198, 212), 0.18),
    "grey": (0.86, (150, 162, 168), 0.22),
}


@dataclass(frozen=True)
class Light:
    """The light a picture is painted in."""

    name: str
    season: str
    sky: list[Colour]
    fog: bool = False
    rain: bool = False
    snow: bool = False

    @property
    def dark(self) -> bool:
        """Whether lamps are lit."""
        return self.name in ("night", "dusk")

    def on(self, colour: Colour, depth: float = 0) -> Colour:
        """A thing's colour in this light; ``depth`` 1 is at the horizon."""
        bright, air, share = _ON_THINGS[self.name]
        lit = mix(shade(colour, bright), air, share)
        return mix(lit, self.sky[-1], min(depth + (0.35 if self.fog else 0), 0.9))

    def water(self) -> list[Colour]:
        """Water from the horizon to one's feet."""
        deep = self.on({"summer": (44, 104, 118), "winter": (62, 84, 98)}.get(self.season, (54, 94, 104)))
        return [mix(self.sky[-1], deep, 0.34), mix(self.sky[1], deep, 0.62), deep]


def light_of(moment: datetime, latitude: float, longitude: float, caption: str, chance: random.Random) -> Light:
    """The light at a moment and place; the caption may tell of the weather."""
    height = sun_height(moment, latitude, longitude)
    season = ("winter", "spring", "summer", "autumn")[(moment.month % 12) // 3]
    told = caption.lower()
    fog, rain = "fog" in told or "rubbed out" in told, "rain" in told and "after rain" not in told
    wet = fog or rain or "sleet" in told
    name = _name(height, season, wet or chance.random() < 0.22)
    frozen = any(word in told for word in ("snow", "frozen", "frost", "ice", "sleet", "minus", "the channel closing"))
    return Light(name, season, chance.choice(_SKIES[name]), fog, rain, frozen)


def _name(height: float, season: str, dull: bool) -> str:
    if height < -9.5:
        return "night"
    if height < 1.5:
        return "dusk"
    if dull:
        return "grey"
    return "low" if height < 9 and season != "winter" else season


def sun_height(moment: datetime, latitude: float, longitude: float) -> float:
    """Degrees of the sun above the horizon, right to about one degree."""
    at = moment.astimezone(UTC)
    day = at.timetuple().tm_yday
    tilt = math.radians(-23.44 * math.cos(2 * math.pi * (day + 10) / 365.25))
    turned = math.radians(15 * (at.hour + at.minute / 60 - 12) + longitude)
    here = math.radians(latitude)
    height = math.sin(here) * math.sin(tilt) + math.cos(here) * math.cos(tilt) * math.cos(turned)
    return math.degrees(math.asin(height))
