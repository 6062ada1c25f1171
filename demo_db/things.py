"""Things that stand in several pictures: skies, water, houses, boats, birds, lamps."""

import math

from demo_db.light import Light
from demo_db.paint import Colour, Points, Sheet, mix, shade

WALLS = (
    (196, 92, 66), (214, 158, 82), (226, 206, 170), (150, 62, 54), (126, 146, 150),
    (232, 222, 204), (188, 124, 96), (110, 128, 116), (204, 178, 132), (158, 106, 84),
)  # fmt: skip
ROOFS = ((140, 66, 52), (92, 84, 84), (112, 74, 62), (74, 80, 92), (156, 84, 60))
LAMP = (255, 214, 138)
INK = (34, 36, 44)
SNOW = (238, 240, 240)
GREENS = ((88, 118, 78), (112, 134, 84), (70, 102, 82), (132, 146, 92))


def sky(sheet: Sheet, light: Light, horizon: float, clouds: bool = True) -> None:
    """The sky down to the horizon, with what is in it."""
    sheet.wash(light.sky, 0, horizon + 2)
    if light.name == "night":
        stars(sheet, horizon)
    elif light.name in ("dusk", "low") or sheet.chance.random() < 0.35:
        sun(sheet, light, horizon)
    if clouds and not light.fog:
        cloud_bank(sheet, light, horizon)


def stars(sheet: Sheet, horizon: float) -> None:
    """A handful of stars, fewer near the horizon."""
    chance = sheet.chance
    for _ in range(chance.randint(25, 60)):
        x, y = chance.uniform(0, sheet.w), horizon * chance.random() ** 1.5 * 0.85
        size = chance.uniform(1.6, 3.4)
        sheet.oval(x, y, size, size, (236, 232, 214), rough=0.2, alpha=chance.uniform(0.4, 0.95))


def sun(sheet: Sheet, light: Light, horizon: float) -> None:
    """A low sun, or a pale one."""
    x = sheet.w * sheet.chance.uniform(0.15, 0.85)
    y = horizon - sheet.h * (0.03 if light.name == "dusk" else sheet.chance.uniform(0.08, 0.2))
    disc = (250, 190, 120) if light.name in ("dusk", "low") else (250, 244, 224)
    sheet.glow(x, y, sheet.h * 0.42, mix(disc, light.sky[-1], 0.3), 0.55)
    sheet.oval(x, y, sheet.h * 0.075, sheet.h * 0.075, disc, alpha=0.92)


def moon(sheet: Sheet, x: float, y: float, size: float) -> None:
    """A moon nearly full."""
    sheet.glow(x, y, size * 3.4, (206, 214, 226), 0.4)
    sheet.oval(x, y, size, size, (240, 234, 210))
    sheet.oval(x - size * 0.16, y - size * 0.08, size * 0.26, size * 0.2, (222, 214, 192), alpha=0.7)
    sheet.oval(x + size * 0.15, y + size * 0.18, size * 0.18, size * 0.14, (222, 214, 192), alpha=0.7)


def cloud_bank(sheet: Sheet, light: Light, horizon: float) -> None:
    """A few long clouds, flat beneath, lit from the side the sun is on."""
    chance = sheet.chance
    for _ in range(chance.randint(1, 5)):
        x, y = chance.uniform(0, sheet.w), horizon * chance.uniform(0.12, 0.8)
        across = sheet.w * chance.uniform(0.22, 0.7)
        nearer = y / max(horizon, 1)
        body = mix(light.sky[1], light.sky[-1] if not light.dark else light.sky[1], 0.7)
        bright = shade(body, 0.8 if light.dark else 1.18 if light.name != "grey" else 0.94)
        cloud(sheet, x, y, across * (1.1 - nearer * 0.4), bright, chance.uniform(0.45, 0.8))


def cloud(sheet: Sheet, x: float, y: float, across: float, colour: Colour, alpha: float = 0.8) -> None:
    """One cloud: a lumpy back on a level belly."""
    chance, back = sheet.chance, []
    lumps = chance.randint(9, 15)
    for lump in range(lumps + 1):
        share = lump / lumps
        rise = math.sin(math.pi * share) ** 0.8 * across * 0.1 * chance.uniform(0.35, 1.2)
        back.append((x - across / 2 + across * share, y - rise))
    belly = [(x + across * 0.42, y + across * 0.022), (x - across * 0.4, y + across * 0.018)]
    sheet.shape([*back, *belly], colour, rough=2.2, alpha=alpha, dry=0.22, wobble=2)


def sea(sheet: Sheet, light: Light, horizon: float, bottom: float | None = None, waves: float = 1) -> None:
    """Water from the horizon down, with strokes of light on it."""
    bottom = bottom or sheet.h
    stops = light.water()
    sheet.wash(stops, horizon, bottom)
    chance = sheet.chance
    for _ in range(int(46 * waves)):
        depth = chance.random() ** 1.4
        y = horizon + 4 + (bottom - horizon) * depth
        across = sheet.w * (0.02 + 0.11 * depth) * chance.uniform(0.5, 1.6)
        x = chance.uniform(-across, sheet.w)
        base = stops[1] if depth < 0.5 else stops[2]
        tone = mix(base, light.sky[-1], 0.5) if chance.random() < 0.55 else shade(base, 0.84)
        lens(sheet, x, y, across, 1.6 + 6 * depth, tone, 0.6)


def lens(sheet: Sheet, x: float, y: float, across: float, high: float, colour: Colour, alpha: float) -> None:
    """A lying sliver, pointed at both ends."""
    tilt = sheet.chance.uniform(-0.25, 0.25) * high
    top = [(x, y), (x + across * 0.35, y - high / 2), (x + across, y + tilt)]
    sheet.shape([*top, (x + across * 0.55, y + high / 2)], colour, rough=0.7, alpha=alpha, wobble=0.4)


def glitter(sheet: Sheet, x: float, top: float, bottom: float, colour: Colour) -> None:
    """The path of a light on water, straight below it."""
    chance = sheet.chance
    for _ in range(38):
        depth = chance.random()
        across = (8 + 70 * depth) * chance.uniform(0.5, 1.4)
        left = x - across / 2 + chance.gauss(0, 10 + 26 * depth)
        lens(sheet, left, top + 4 + (bottom - top) * depth, across, 2 + 4 * depth, colour, 0.6)


def far_shore(sheet: Sheet, light: Light, horizon: float, depth: float = 0.62, high: float = 0.05) -> None:
    """A low line of land, or of hills."""
    chance, points = sheet.chance, [(-10, horizon + 2)]
    steps = chance.randint(7, 12)
    for step in range(steps + 1):
        points.append((sheet.w * step / steps, horizon - sheet.h * high * chance.uniform(0.2, 1)))
    colour = light.on((84, 104, 96) if light.season != "winter" else (112, 118, 122), depth)
    sheet.shape([*points, (sheet.w + 10, horizon + 2)], colour, rough=1.2)


def house(sheet: Sheet, light: Light, x: float, foot: float, width: float, high: float, *, gable: str = "",
          wall: Colour | None = None, depth: float = 0, door: bool = True) -> None:  # fmt: skip
    """A house seen from its gable end or its long side, windows lit when it is dark."""
    chance = sheet.chance
    gable = gable or chance.choice(("straight", "stepped", "bell", "side", "straight"))
    wall, roof = light.on(wall or chance.choice(WALLS), depth), light.on(chance.choice(ROOFS), depth)
    top = foot - high
    if gable == "side":
        sheet.box(x, top, width, high, wall, to=shade(wall, 0.9), rough=0.8)
        rise = min(width, high) * 0.42
        eaves = [(x - width * 0.04, top), (x + width * 0.08, top - rise), (x + width * 0.92, top - rise)]
        sheet.shape([*eaves, (x + width * 1.04, top)], roof, rough=0.8)
        _chimney(sheet, roof, x + width * chance.uniform(0.2, 0.8), top - rise, width)
        if light.snow:
            sheet.stroke([eaves[1], eaves[2]], max(width * 0.06, 4), light.on(SNOW, depth))
    else:
        front = _gable(gable, x, top, width)
        sheet.shape([(x, foot), *front, (x + width, foot)], wall, to=shade(wall, 0.88), rough=0.8)
        sheet.stroke(front, max(width * 0.045, 2.5), light.on(SNOW, depth) if light.snow else shade(roof, 0.9))
    _openings(sheet, light, x, top, width, high, depth, door)


def _gable(form: str, x: float, top: float, width: float) -> list[tuple[float, float]]:
    rise = width * 0.62
    if form == "stepped":
        steps, points = 4, []
        for step in range(steps):
            left, level = x + width * step / (2 * steps), top - rise * step / (steps - 1)
            points += [(left, level), (left + width / (2 * steps), level)]
        mirrored = [(2 * x + width - px, py) for px, py in reversed(points)]
        return points + mirrored
    if form == "bell":
        turns = [n / 10 for n in range(11)]
        half = [(x + width / 2 * t, top - rise * (0.5 - 0.5 * math.cos(math.pi * t))) for t in turns]
        return half + [(2 * x + width - px, py) for px, py in reversed(half)]
    return [(x, top), (x + width / 2, top - rise * 0.9), (x + width, top)]


def _chimney(sheet: Sheet, roof: Colour, x: float, foot: float, width: float) -> None:
    sheet.box(x, foot - width * 0.14, width * 0.08, width * 0.16, shade(roof, 0.8), rough=0.6)


def _openings(sheet: Sheet, light: Light, x: float, top: float, width: float, high: float, depth: float,
              door: bool) -> None:  # fmt: skip
    """Windows in rows, some lit after dark; a door in place of the lowest middle one."""
    chance = sheet.chance
    columns = chance.choice((2, 3)) if width < high * 1.25 else 4
    storeys = min(max(round(high / width * 2.2), 1), 4)
    wide, tall = width / columns * 0.4, min(high / storeys * 0.52, width / columns * 0.66)
    spots = [(x + width * (column + 0.5) / columns, top + high * (storey + 0.18) / storeys)
             for storey in range(storeys) for column in range(columns)]  # fmt: skip
    way_in = spots.pop(len(spots) - (columns + 1) // 2) if door and high > 40 else None
    panes = [_rectangle(middle - wide / 2, level, wide, tall) for middle, level in spots]
    lit = [pane for pane in panes if light.dark and chance.random() < 0.5]
    if width > 70:
        sheet.many([_rectangle(m - wide * 0.6, y - wide * 0.1, wide * 1.2, tall + wide * 0.2) for m, y in spots],
                   light.on((228, 220, 202), depth), rough=0.6, alpha=0.85)  # fmt: skip
    sheet.many(panes, light.on((26, 32, 46) if light.dark else (72, 88, 100), depth), rough=0.6)
    sheet.many(lit, mix(LAMP, light.sky[-1], depth * 0.5), rough=0.6)
    if width > 70:
        sheet.many([_rectangle(m - 1.2, y, 2.4, tall) for m, y in spots], light.on((228, 220, 202), depth), rough=0.3)
    if way_in:
        high_door = min(high / storeys * 0.8, wide * 2.2)
        tone = light.on(chance.choice(((96, 60, 48), (60, 88, 84), (70, 78, 104), (150, 104, 62))), depth)
        sheet.box(
            way_in[0] - wide * 0.55,
            top + high - high_door,
            wide * 1.1,
            high_door,
            tone,
            to=shade(tone, 0.85),
            rough=0.6,
        )


def _rectangle(x: float, y: float, width: float, high: float) -> Points:
    return [(x, y), (x + width, y), (x + width, y + high), (x, y + high)]


def row_of_houses(sheet: Sheet, light: Light, foot: float, high: float, left: float = -20, right: float | None = None,
                  depth: float = 0) -> float:  # fmt: skip
    """Houses shoulder to shoulder along a quay or a street; gives where the last one ends."""
    x, chance, before = left, sheet.chance, None
    right = right or sheet.w + 20
    while x < right:
        width = high * chance.uniform(0.55, 0.95)
        wall = chance.choice([one for one in WALLS if one != before])
        house(sheet, light, x, foot, width, high * chance.uniform(0.72, 1.1), wall=wall, depth=depth)
        before, x = wall, x + width * chance.choice((1.0, 1.0, 1.0, 1.12))
    return x


def steeple(sheet: Sheet, light: Light, x: float, foot: float, high: float, depth: float = 0.3) -> None:
    """A brick church tower with a green spire."""
    width = high * 0.17
    wall, copper = light.on((142, 84, 66), depth), light.on((104, 142, 126), depth)
    sheet.box(x - width / 2, foot - high * 0.58, width, high * 0.58, wall, to=shade(wall, 0.92), rough=0.8)
    sheet.shape([(x - width * 0.6, foot - high * 0.57), (x, foot - high), (x + width * 0.6, foot - high * 0.57)],
                copper, rough=0.7)  # fmt: skip
    slit = _rectangle(x - width * 0.1, foot - high * 0.5, width * 0.2, high * 0.1)
    sheet.many([slit], light.on(INK, depth), alpha=0.8)


def tree(sheet: Sheet, light: Light, x: float, foot: float, high: float) -> None:
    """Leafy, golden or bare, by the season."""
    chance = sheet.chance
    bark = light.on((74, 60, 54))
    _branch(sheet, bark, x, foot, -math.pi / 2, high * 0.38, high * 0.045, 4 if light.season != "summer" else 2)
    if light.season == "winter":
        return
    leaves = {"spring": (150, 172, 96), "summer": (80, 116, 74), "autumn": (206, 138, 62)}[light.season]
    for _ in range(16 if light.season != "spring" else 11):
        turn, far = chance.uniform(0, 2 * math.pi), chance.random() ** 0.6
        size = high * chance.uniform(0.14, 0.26)
        tone = shade(light.on(leaves), chance.uniform(0.84, 1.12))
        y = foot - high * 0.68 + math.sin(turn) * far * high * 0.27
        sheet.oval(x + math.cos(turn) * far * high * 0.32, y, size, size * 0.8, tone, rough=2.4, dry=0.16, alpha=0.92)


def _branch(sheet: Sheet, bark: Colour, x: float, y: float, angle: float, reach: float, thick: float, left: int):
    chance = sheet.chance
    end = (x + reach * math.cos(angle), y + reach * math.sin(angle))
    sheet.stroke([(x, y), end], max(thick, 1.6), bark)
    if left == 0:
        return
    for turn in (-1, 1, chance.choice((-0.3, 0.3))):
        spread = angle + turn * chance.uniform(0.3, 0.62)
        _branch(sheet, bark, *end, spread, reach * chance.uniform(0.58, 0.74), thick * 0.62, left - 1)


def sailing_boat(sheet: Sheet, light: Light, x: float, level: float, size: float, sails: bool = True) -> None:
    """A small boat with one mast, sails up or bare poles."""
    chance = sheet.chance
    hull = light.on(chance.choice(((58, 72, 92), (150, 62, 54), (228, 220, 202), (70, 98, 88), (196, 150, 88))))
    mast = level - size * 1.25
    sheet.stroke([(x, level), (x, mast)], max(size * 0.025, 2), light.on((110, 84, 62)))
    if sails:
        cloth = light.on(chance.choice(((240, 232, 214), (176, 96, 70), (232, 222, 200))))
        sheet.shape([(x + size * 0.03, mast), (x + size * 0.52, level - size * 0.22), (x + size * 0.03, level - size * 0.2)],
                    cloth, to=shade(cloth, 0.9))  # fmt: skip
        jib = [
            (x - size * 0.03, mast + size * 0.15),
            (x - size * 0.42, level - size * 0.2),
            (x - size * 0.03, level - size * 0.22),
        ]
        sheet.shape(jib, shade(cloth, 0.94))
    else:
        for far in (-0.46, 0.5):
            sheet.stroke([(x, mast), (x + size * far, level - size * 0.16)], 1.6, light.on(INK), alpha=0.7)
        sheet.stroke(
            [(x, level - size * 0.28), (x + size * 0.42, level - size * 0.24)], size * 0.05, light.on((214, 204, 186))
        )
    _hull(sheet, x, level, size, hull)


def _hull(sheet: Sheet, x: float, level: float, size: float, hull: Colour) -> None:
    form = [(x - size * 0.55, level - size * 0.17), (x + size * 0.56, level - size * 0.14), (x + size * 0.44, level + size * 0.05),
            (x - size * 0.36, level + size * 0.06)]  # fmt: skip
    sheet.shape(form, hull, to=shade(hull, 0.8))
    sheet.stroke([form[0], form[1]], max(size * 0.028, 2), shade(hull, 1.35))


def fishing_boat(sheet: Sheet, light: Light, x: float, level: float, size: float) -> None:
    """A wooden cutter with a wheelhouse and a lamp."""
    hull = light.on(sheet.chance.choice(((52, 84, 110), (146, 64, 52), (62, 96, 84), (206, 170, 96))))
    house_wall = light.on((232, 226, 210))
    sheet.stroke(
        [(x + size * 0.12, level - size * 0.1), (x + size * 0.12, level - size * 0.95)],
        max(size * 0.03, 2),
        light.on(INK),
    )
    sheet.stroke(
        [(x + size * 0.12, level - size * 0.9), (x - size * 0.46, level - size * 0.2)], 1.8, light.on(INK), alpha=0.8
    )
    sheet.box(x - size * 0.32, level - size * 0.48, size * 0.3, size * 0.34, house_wall, rough=0.8)
    sheet.box(x - size * 0.35, level - size * 0.52, size * 0.36, size * 0.05, shade(hull, 0.9), rough=0.7)
    pane = LAMP if light.dark else light.on((86, 104, 116))
    sheet.many([_rectangle(x - size * 0.28, level - size * 0.42, size * 0.09, size * 0.11),
                _rectangle(x - size * 0.15, level - size * 0.42, size * 0.09, size * 0.11)], pane)  # fmt: skip
    _hull(sheet, x, level, size, hull)


def ship(sheet: Sheet, light: Light, x: float, level: float, size: float) -> None:
    """A ferry, white above and dark below, with a funnel and rows of ports."""
    chance = sheet.chance
    below, band = light.on(chance.choice(((44, 62, 88), (120, 52, 48), (54, 84, 80)))), light.on((196, 92, 66))
    white = light.on((236, 230, 216))
    sheet.box(x - size * 0.36, level - size * 0.27, size * 0.68, size * 0.1, white, rough=0.8)
    sheet.box(x - size * 0.28, level - size * 0.35, size * 0.5, size * 0.09, shade(white, 0.96), rough=0.8)
    sheet.box(x + size * 0.08, level - size * 0.46, size * 0.1, size * 0.12, below, rough=0.7)
    sheet.box(x + size * 0.08, level - size * 0.43, size * 0.1, size * 0.03, band, rough=0.7)
    sheet.stroke(
        [(x - size * 0.22, level - size * 0.35), (x - size * 0.22, level - size * 0.5)],
        max(size * 0.008, 2),
        light.on(INK),
    )
    hull = [
        (x - size * 0.54, level - size * 0.2),
        (x + size * 0.44, level - size * 0.17),
        (x + size * 0.46, level),
        (x - size * 0.46, level),
    ]
    sheet.shape(hull, white, to=shade(white, 0.93))
    sheet.shape(
        [(x - size * 0.505, level - size * 0.1), (x + size * 0.45, level - size * 0.09), hull[2], hull[3]], below
    )
    ports = [
        _rectangle(x - size * 0.3 + size * 0.047 * n, level - size * 0.245, size * 0.024, size * 0.028)
        for n in range(13)
    ]
    ports += [
        _rectangle(x - size * 0.4 + size * 0.055 * n, level - size * 0.155, size * 0.018, size * 0.02)
        for n in range(14)
    ]
    sheet.many(ports, LAMP if light.dark else light.on((74, 92, 108)))


def gulls(sheet: Sheet, light: Light, number: int, horizon: float, colour: Colour | None = None) -> None:
    """Birds as two strokes each."""
    chance = sheet.chance
    for _ in range(number):
        x, y, size = chance.uniform(0.05, 0.95) * sheet.w, horizon * chance.uniform(0.15, 0.85), chance.uniform(9, 24)
        lift, tilt = chance.uniform(0.15, 0.55), chance.uniform(-0.2, 0.2)
        wings = [(x - size, y - size * (lift - tilt)), (x - size * 0.4, y - size * lift * 0.9), (x, y),
                 (x + size * 0.4, y - size * lift * 0.9), (x + size, y - size * (lift + tilt))]  # fmt: skip
        sheet.stroke(wings, size * 0.13 + 1, colour or light.on((60, 64, 72) if not light.dark else (190, 190, 196)))


def lamp_post(sheet: Sheet, light: Light, x: float, foot: float, high: float) -> None:
    """A street lamp, lit when it is dark."""
    iron = light.on((48, 54, 58))
    sheet.stroke([(x, foot), (x, foot - high)], max(high * 0.022, 3), iron)
    sheet.box(
        x - high * 0.05, foot - high * 1.1, high * 0.1, high * 0.11, LAMP if light.dark else light.on((196, 200, 190))
    )
    sheet.shape(
        [(x - high * 0.07, foot - high * 1.1), (x, foot - high * 1.17), (x + high * 0.07, foot - high * 1.1)], iron
    )
    if light.dark:
        sheet.glow(x, foot - high * 1.05, high * 0.75, LAMP, 0.5)


def bollard(sheet: Sheet, light: Light, x: float, foot: float, size: float) -> None:
    """An iron bollard."""
    iron = light.on((58, 56, 60))
    sheet.box(x - size * 0.26, foot - size * 0.8, size * 0.52, size * 0.8, iron, rough=0.8)
    sheet.oval(x, foot - size * 0.78, size * 0.86, size * 0.34, shade(iron, 0.8))
    sheet.oval(x, foot - size * 0.86, size * 0.8, size * 0.24, mix(iron, light.sky[-1], 0.2))


def cat(sheet: Sheet, light: Light, x: float, foot: float, size: float) -> None:
    """A cat sitting, seen from behind."""
    fur = light.on(sheet.chance.choice(((52, 50, 54), (196, 128, 70), (120, 112, 106))))
    sheet.oval(x, foot - size * 0.36, size * 0.6, size * 0.78, fur, rough=1.4)
    sheet.oval(x, foot - size * 0.84, size * 0.42, size * 0.36, fur, rough=1.2)
    for side in (-1, 1):
        sheet.shape([(x + side * size * 0.19, foot - size * 0.9), (x + side * size * 0.16, foot - size * 1.12),
                     (x + side * size * 0.03, foot - size)], fur)  # fmt: skip
    tail = [
        (x + size * 0.2, foot - size * 0.06),
        (x + size * 0.5, foot - size * 0.04),
        (x + size * 0.62, foot - size * 0.2),
    ]
    sheet.stroke(tail, size * 0.1, fur)


def cup(sheet: Sheet, light: Light, x: float, foot: float, size: float) -> None:
    """A cup on its saucer."""
    glaze = light.on(sheet.chance.choice(((226, 222, 210), (98, 128, 146), (190, 110, 84), (224, 196, 132))))
    sheet.oval(x, foot, size * 1.5, size * 0.34, shade(glaze, 0.9))
    sheet.stroke([(x + size * 0.42, foot - size * 0.55), (x + size * 0.68, foot - size * 0.5), (x + size * 0.6, foot - size * 0.25),
                  (x + size * 0.36, foot - size * 0.2)], size * 0.09, shade(glaze, 0.85))  # fmt: skip
    sheet.shape([(x - size * 0.46, foot - size * 0.72), (x + size * 0.46, foot - size * 0.72), (x + size * 0.3, foot - size * 0.02),
                 (x - size * 0.3, foot - size * 0.02)], glaze, to=shade(glaze, 0.86))  # fmt: skip
    sheet.oval(x, foot - size * 0.72, size * 0.92, size * 0.24, shade(glaze, 1.1))
    sheet.oval(x, foot - size * 0.7, size * 0.76, size * 0.16, light.on((92, 60, 42)))


def bicycle(sheet: Sheet, light: Light, x: float, foot: float, size: float) -> None:
    """A bicycle leaning on nothing in particular."""
    frame, tyre = light.on(sheet.chance.choice(((58, 92, 104), (150, 62, 54), (50, 54, 58)))), light.on(INK)
    radius = size * 0.26
    for side in (-1, 1):
        middle = x + side * size * 0.42
        turns = [(middle + radius * math.cos(n * 0.3), foot - radius + radius * math.sin(n * 0.3)) for n in range(22)]
        sheet.stroke(turns, max(size * 0.024, 2.2), tyre)
    low, seat, head = (
        (x - size * 0.05, foot - radius),
        (x - size * 0.14, foot - size * 0.62),
        (x + size * 0.28, foot - size * 0.6),
    )
    rear, front = (x - size * 0.42, foot - radius), (x + size * 0.42, foot - radius)
    sheet.stroke([rear, low, head, seat, low], max(size * 0.026, 2.4), frame)
    sheet.stroke([rear, seat], max(size * 0.022, 2), frame)
    sheet.stroke(
        [front, head, (x + size * 0.25, foot - size * 0.72), (x + size * 0.14, foot - size * 0.74)],
        max(size * 0.024, 2.2),
        frame,
    )
    sheet.stroke([(x - size * 0.24, foot - size * 0.65), (x - size * 0.06, foot - size * 0.65)], size * 0.05, tyre)


def capped_head(sheet: Sheet, light: Light, x: float, level: float, size: float) -> None:
    """A swimmer: a cap and shoulders above the water."""
    cap = light.on(
        sheet.chance.choice(((232, 190, 70), (206, 84, 66), (236, 230, 216), (70, 112, 140), (228, 156, 150)))
    )
    sheet.oval(x, level - size * 0.3, size * 0.8, size * 0.9, light.on((222, 172, 144)))
    sheet.shape([(x - size * 0.42, level - size * 0.34), (x - size * 0.34, level - size * 0.7), (x, level - size * 0.86),
                 (x + size * 0.34, level - size * 0.7), (x + size * 0.42, level - size * 0.34)], cap)  # fmt: skip
    lens(
        sheet,
        x - size * 1.1,
        level + size * 0.08,
        size * 2.2,
        size * 0.24,
        mix(light.sky[-1], light.water()[1], 0.3),
        0.85,
    )


def falling_snow(sheet: Sheet, light: Light, number: int = 170) -> None:
    """Flakes, the nearer the larger."""
    chance, flakes = sheet.chance, []
    for _ in range(number):
        size, x, y = 1.5 + 6 * chance.random() ** 3, chance.uniform(0, sheet.w), chance.uniform(0, sheet.h)
        flakes.append([(x - size, y), (x, y - size), (x + size, y), (x, y + size)])
    sheet.many(flakes, mix(SNOW, light.sky[-1], 0.2), rough=0.9, alpha=0.85)


def falling_rain(sheet: Sheet, light: Light, top: float = 0, bottom: float | None = None) -> None:
    """Slanting strokes."""
    chance, bottom = sheet.chance, bottom or sheet.h
    slant = chance.uniform(-0.3, 0.3)
    for _ in range(110):
        x, y, reach = chance.uniform(0, sheet.w), chance.uniform(top, bottom), chance.uniform(18, 52)
        end = (x + slant * reach, min(y + reach, bottom))
        sheet.stroke([(x, y), end], 1.6, mix(light.sky[-1], (255, 255, 255), 0.2), rough=0.2, alpha=0.4)


def weather(sheet: Sheet, light: Light, horizon: float) -> None:
    """What lies over the whole picture: mist, rain, snow in the air."""
    if light.fog:
        sheet.veil(mix(light.sky[-1], (206, 208, 204), 0.5), 0.62, horizon * 0.2, sheet.h)
    if light.rain:
        falling_rain(sheet, light)
