"""The motifs seen out of doors. Each takes the sheet, the light and the caption."""

import math

from demo_db import things
from demo_db.light import Light
from demo_db.paint import Sheet, mix, shade
from demo_db.things import INK, LAMP, SNOW


def harbour(sheet: Sheet, light: Light, told: str) -> None:
    """A quay with its houses, boats, and their likeness in the water."""
    chance, w, h = sheet.chance, sheet.w, sheet.h
    level = h * chance.uniform(0.5, 0.6)
    things.sky(sheet, light, level)
    _moon_if_told(sheet, told)
    things.far_shore(sheet, light, level - h * 0.03)
    left, right = chance.choice(((-30, w * 0.62), (w * 0.3, w + 20), (-30, w + 20), (-30, w + 20)))
    if chance.random() < 0.5:
        things.steeple(sheet, light, chance.uniform(max(left, 0), right), level - h * 0.03, h * 0.4)
    ends = things.row_of_houses(sheet, light, level - h * 0.03, h * chance.uniform(0.13, 0.19), left, right, depth=0.14)
    if "crane" in told or chance.random() < 0.25:
        _crane(sheet, light, w * chance.uniform(0.2, 0.8), level, h * 0.42)
    _quay(sheet, light, left - h * 0.05, ends + h * 0.05, level)
    _reflected(sheet, light, level)
    _moored(sheet, light, level)
    if "gull" in told or chance.random() < 0.4:
        things.gulls(sheet, light, chance.randint(3, 11), level)
    _floes_if_cold(sheet, light, level)
    if chance.random() < 0.45:
        _near_quay(sheet, light)
    things.weather(sheet, light, level)


def _moon_if_told(sheet: Sheet, told: str) -> None:
    if "moon" in told:
        things.moon(sheet, sheet.w * sheet.chance.uniform(0.2, 0.8), sheet.h * 0.16, sheet.h * 0.09)


def _crane(sheet: Sheet, light: Light, x: float, foot: float, high: float) -> None:
    iron = light.on((84, 96, 100), 0.15)
    for side in (-1, 1):
        sheet.stroke([(x + side * high * 0.1, foot), (x + side * high * 0.03, foot - high * 0.6)], high * 0.025, iron)
    sheet.box(x - high * 0.09, foot - high * 0.7, high * 0.18, high * 0.14, light.on((170, 82, 58), 0.15))
    sheet.stroke([(x - high * 0.12, foot - high * 0.62), (x + high * 0.52, foot - high)], high * 0.028, iron)
    sheet.stroke([(x + high * 0.51, foot - high), (x + high * 0.51, foot - high * 0.5)], 2, iron)


def _quay(sheet: Sheet, light: Light, left: float, right: float, level: float) -> None:
    stone = light.on(SNOW if light.snow else (146, 138, 126))
    sheet.box(
        left, level - sheet.h * 0.034, right - left, sheet.h * 0.036, stone, to=shade(light.on((120, 112, 104)), 0.8)
    )


def _reflected(sheet: Sheet, light: Light, level: float) -> None:
    """Water holding what stands above it."""
    things.sea(sheet, light, level, waves=0.2)
    sheet.mirror(level, sheet.h, 0.62, light.water()[1])
    stops = light.water()
    for _ in range(26):
        depth = sheet.chance.random() ** 1.3
        y, across = (
            level + 6 + (sheet.h - level) * depth,
            sheet.w * (0.03 + 0.1 * depth) * sheet.chance.uniform(0.5, 1.5),
        )
        tone = mix(stops[1], light.sky[-1], 0.55) if sheet.chance.random() < 0.6 else shade(stops[2], 0.85)
        things.lens(sheet, sheet.chance.uniform(-across, sheet.w), y, across, 2 + 4 * depth, tone, 0.5)


def _moored(sheet: Sheet, light: Light, level: float) -> None:
    chance = sheet.chance
    for place in sorted(chance.sample((0.12, 0.3, 0.5, 0.7, 0.88), chance.randint(1, 3))):
        depth = chance.uniform(0.12, 0.6)
        y, size = level + (sheet.h - level) * depth, sheet.h * (0.13 + 0.24 * depth)
        kind = chance.random()
        if kind < 0.5:
            things.fishing_boat(sheet, light, sheet.w * place, y, size * 1.1)
        else:
            things.sailing_boat(sheet, light, sheet.w * place, y, size, sails=kind > 0.85)
        things.lens(
            sheet,
            sheet.w * place - size * 0.6,
            y + size * 0.1,
            size * 1.2,
            size * 0.09,
            shade(light.water()[2], 0.7),
            0.6,
        )


def _floes_if_cold(sheet: Sheet, light: Light, level: float) -> None:
    if not light.snow:
        return
    for _ in range(24):
        depth = sheet.chance.random()
        x, y = sheet.chance.uniform(-40, sheet.w), level + 8 + (sheet.h - level) * depth
        size = 30 + 150 * depth * sheet.chance.uniform(0.5, 1.2)
        things.lens(sheet, x, y, size, size * 0.16, light.on(SNOW), 0.9)


def _near_quay(sheet: Sheet, light: Light) -> None:
    w, h, chance = sheet.w, sheet.h, sheet.chance
    top = h * chance.uniform(0.87, 0.92)
    stone = light.on(SNOW if light.snow else (132, 122, 112))
    sheet.shape([(-10, top), (w + 10, top + h * chance.uniform(-0.03, 0.03)), (w + 10, h + 10), (-10, h + 10)],
                stone, to=shade(stone, 0.78), dry=0.12)  # fmt: skip
    for place in chance.sample((0.15, 0.45, 0.8), chance.randint(1, 2)):
        things.bollard(sheet, light, w * place, top + h * 0.05, h * 0.09)


def sky(sheet: Sheet, light: Light, told: str) -> None:
    """Nearly all sky, over a strip of sea, marsh or roofs."""
    chance, h = sheet.chance, sheet.h
    level = h * chance.uniform(0.78, 0.88)
    things.sky(sheet, light, level, clouds=False)
    _moon_if_told(sheet, told)
    _big_clouds(sheet, light, level)
    if "comet" in told:
        _comet(sheet)
    if "aurora" in told:
        _northern_lights(sheet, level)
    _birds_told(sheet, light, told, level)
    ground = chance.choice((_strip_of_sea, _strip_of_marsh, _strip_of_roofs))
    if any(word in told for word in ("beach", "breakwater", "sea", "pier")):
        ground = _strip_of_sea
    if any(word in told for word in ("town", "street", "wall", "yard")):
        ground = _strip_of_roofs
    ground(sheet, light, level)
    things.weather(sheet, light, level)


def _big_clouds(sheet: Sheet, light: Light, level: float) -> None:
    chance = sheet.chance
    if light.name == "night":
        return
    for row in range(chance.randint(2, 5)):
        y = level * (0.16 + 0.18 * row) + chance.uniform(-20, 20)
        for _ in range(chance.randint(1, 2)):
            body = mix(light.sky[0], light.sky[-1], 0.35 + 0.15 * row)
            bright = shade(body, chance.choice((0.82, 1.2, 1.3)) if not light.dark else chance.choice((0.7, 1.12)))
            across = sheet.w * chance.uniform(0.35, 0.95) * (1.1 - 0.15 * row)
            x = chance.uniform(0, sheet.w)
            things.cloud(sheet, x, y, across, bright, 0.75)
            if light.name in ("dusk", "low"):
                things.cloud(sheet, x + 12, y + across * 0.03, across * 0.8, mix(bright, (250, 190, 140), 0.5), 0.6)


def _comet(sheet: Sheet) -> None:
    x, y = sheet.w * sheet.chance.uniform(0.4, 0.65), sheet.h * 0.4
    for share in range(12):
        far = share / 12
        sheet.oval(
            x + far * 110, y - far * 170, 5 + far * 22, 5 + far * 22, (220, 224, 230), alpha=0.2 * (1 - far), rough=0.3
        )
    sheet.oval(x, y, 8, 8, (250, 246, 230), rough=0.3)


def _northern_lights(sheet: Sheet, level: float) -> None:
    chance, w = sheet.chance, sheet.w
    for tone in ((110, 210, 150), (96, 196, 168), (206, 104, 150)):
        bend, foot = chance.uniform(0, 6), level * chance.uniform(0.5, 0.8)
        for n in range(60):
            x = w * (n / 60 - 0.02)
            base = foot + math.sin(bend + n / 9) * level * 0.12
            high = level * chance.uniform(0.28, 0.5)
            sheet.shape([(x, base), (x + 18, base - high), (x + w / 44 + 18, base - high), (x + w / 44, base)], tone,
                        to=mix(tone, (220, 255, 226), 0.3), rough=2.2, alpha=chance.uniform(0.04, 0.2))  # fmt: skip


def _birds_told(sheet: Sheet, light: Light, told: str, level: float) -> None:
    if "starling" in told:
        _flock(sheet, light, level)
    elif any(bird in told for bird in ("swallow", "jackdaw", "the cranes", "geese", "gull", "tern", "swift", "crow")):
        things.gulls(sheet, light, 16, level)
    elif "stork" in told or sheet.chance.random() < 0.3:
        things.gulls(sheet, light, 1 if "stork" in told else 3, level)


def _flock(sheet: Sheet, light: Light, level: float) -> None:
    chance, dots = sheet.chance, []
    x, y = sheet.w * 0.5, level * 0.5
    for _ in range(420):
        turn, far = chance.uniform(0, 2 * math.pi), abs(chance.gauss(0, 0.5))
        px = x + math.cos(turn) * far * sheet.w * 0.34
        py = y + math.sin(turn) * far * level * 0.26 + math.sin((px - x) / 130) * 46
        dots.append([(px - 3, py), (px, py - 2), (px + 3, py), (px, py + 2)])
    sheet.many(dots, light.on((52, 50, 56)), alpha=0.85)


def _strip_of_sea(sheet: Sheet, light: Light, level: float) -> None:
    things.far_shore(sheet, light, level, high=0.02)
    things.sea(sheet, light, level)
    if sheet.chance.random() < 0.6:
        things.sailing_boat(
            sheet, light, sheet.w * sheet.chance.uniform(0.15, 0.85), level + sheet.h * 0.03, sheet.h * 0.07
        )


def _strip_of_marsh(sheet: Sheet, light: Light, level: float) -> None:
    chance, w, h = sheet.chance, sheet.w, sheet.h
    things.far_shore(sheet, light, level, high=0.03)
    grass = light.on(SNOW if light.snow else chance.choice(((150, 142, 92), (112, 128, 82), (166, 138, 92))))
    sheet.wash([mix(grass, light.sky[-1], 0.3), shade(grass, 0.72)], level, h)
    for _ in range(5):
        things.lens(
            sheet,
            w * chance.uniform(-0.1, 0.8),
            level + (h - level) * chance.uniform(0.2, 0.9),
            w * 0.3,
            9,
            light.sky[-1],
            0.8,
        )
    for _ in range(3):
        things.tree(sheet, light, w * chance.uniform(0, 1), level + 6, h * chance.uniform(0.05, 0.12))


def _strip_of_roofs(sheet: Sheet, light: Light, level: float) -> None:
    sheet.wash([light.sky[-1], light.sky[-1]], level - 2, sheet.h)
    things.steeple(sheet, light, sheet.w * sheet.chance.uniform(0.15, 0.85), sheet.h, sheet.h * 0.34, depth=0.1)
    things.row_of_houses(sheet, light, sheet.h + 40, sheet.h * 0.16, depth=0.05)


def boat(sheet: Sheet, light: Light, told: str) -> None:
    """One vessel, large, on open water."""
    chance, w, h = sheet.chance, sheet.w, sheet.h
    level = h * chance.uniform(0.46, 0.56)
    things.sky(sheet, light, level)
    _moon_if_told(sheet, told)
    things.far_shore(sheet, light, level)
    things.sea(sheet, light, level)
    x, foot = w * chance.uniform(0.4, 0.6), level + h * chance.uniform(0.1, 0.2)
    sails = any(
        word in told for word in ("schooner", "brig", "sloop", "washing", "linen", "mast", "aloft", "barque", "rigg")
    )
    if (
        any(word in told for word in ("ferry", "saloon", "deck", "crossing", "past", "ship", "purser", "captain"))
        and not sails
    ):
        _under_way(sheet, light, x, foot, min(w * 0.8, h * 0.9))
        if "crossing" in told:
            things.ship(sheet, light, w * 0.16, level + h * 0.01, h * 0.2)
    elif sails or chance.random() < 0.3:
        _tall_ship(sheet, light, x, foot, min(w, h) * 0.62, "washing" in told or "linen" in told)
    else:
        things.sailing_boat(sheet, light, x, foot, min(w, h) * 0.44, sails=True)
        things.lens(sheet, x - h * 0.3, foot + h * 0.04, h * 0.56, h * 0.03, shade(light.water()[2], 0.75), 0.6)
    things.gulls(sheet, light, chance.randint(0, 6) + 8 * ("crow" in told or "gull" in told), level)
    things.weather(sheet, light, level)


def _under_way(sheet: Sheet, light: Light, x: float, foot: float, size: float) -> None:
    things.ship(sheet, light, x, foot, size)
    for n in range(3):
        left = x - size * (0.5 + 0.03 * n)
        things.lens(
            sheet,
            left,
            foot + size * 0.015 * (n + 0.4),
            size * (1.02 + 0.05 * n),
            size * 0.022,
            light.on((232, 236, 232)),
            0.75,
        )
    if light.dark:
        things.glitter(sheet, x, foot + size * 0.06, sheet.h, LAMP)


def _tall_ship(sheet: Sheet, light: Light, x: float, foot: float, size: float, washing: bool) -> None:
    spar, hull = light.on((104, 78, 58)), light.on(sheet.chance.choice(((46, 56, 70), (60, 84, 74), (112, 56, 48))))
    for far, high in ((-0.24, 0.86), (0.16, 1.0)):
        mast = x + size * far
        sheet.stroke([(mast, foot - size * 0.1), (mast, foot - size * high)], size * 0.016, spar)
        for yard in (0.45, 0.62, 0.78):
            _square_sail(
                sheet, light, mast, foot - size * high * yard, size * (0.34 - 0.2 * yard), size * 0.12, washing
            )
        sheet.stroke(
            [(mast, foot - size * high), (mast - size * 0.2, foot - size * 0.12)], 1.6, light.on(INK), alpha=0.6
        )
        sheet.stroke(
            [(mast, foot - size * high), (mast + size * 0.22, foot - size * 0.12)], 1.6, light.on(INK), alpha=0.6
        )
    sheet.stroke([(x + size * 0.4, foot - size * 0.14), (x + size * 0.68, foot - size * 0.27)], size * 0.014, spar)
    form = [(x - size * 0.46, foot - size * 0.19), (x - size * 0.2, foot - size * 0.12), (x + size * 0.3, foot - size * 0.12),
            (x + size * 0.5, foot - size * 0.17), (x + size * 0.38, foot), (x - size * 0.38, foot)]  # fmt: skip
    sheet.shape(form, hull, to=shade(hull, 0.75))
    sheet.stroke(form[:4], size * 0.014, light.on((222, 196, 130)))
    if washing:
        _washing(sheet, light, x, foot - size * 0.27, size)
    things.lens(sheet, x - size * 0.46, foot + size * 0.02, size * 0.94, size * 0.04, shade(light.water()[2], 0.7), 0.7)


def _square_sail(sheet: Sheet, light: Light, x: float, y: float, width: float, high: float, furled: bool) -> None:
    cloth = light.on((234, 224, 200))
    sheet.stroke([(x - width, y), (x + width, y)], 3, light.on((104, 78, 58)))
    if furled:
        sheet.stroke([(x - width * 0.9, y + 4), (x + width * 0.9, y + 4)], 7, cloth)
    else:
        sheet.shape([(x - width, y), (x + width, y), (x + width * 0.9, y + high), (x, y + high * 0.86), (x - width * 0.9, y + high)],
                    cloth, to=shade(cloth, 0.88))  # fmt: skip


def _washing(sheet: Sheet, light: Light, x: float, y: float, size: float) -> None:
    sheet.stroke([(x - size * 0.22, y), (x + size * 0.14, y)], 2, light.on(INK))
    for n in range(7):
        left, tone = (
            x - size * 0.2 + n * size * 0.047,
            sheet.chance.choice(((236, 230, 216), (178, 96, 82), (108, 136, 152))),
        )
        sheet.box(left, y, size * 0.034, size * (0.05 + 0.01 * n), light.on(tone), rough=0.6)


def lighthouse(sheet: Sheet, light: Light, told: str) -> None:
    """A light on its rock or at the end of its mole."""
    chance, w, h = sheet.chance, sheet.w, sheet.h
    level = h * chance.uniform(0.6, 0.68)
    things.sky(sheet, light, level)
    _moon_if_told(sheet, told)
    things.far_shore(sheet, light, level, high=0.025)
    things.sea(sheet, light, level)
    x, high = w * chance.uniform(0.3, 0.7), h * chance.uniform(0.4, 0.5)
    foot = level - h * 0.02
    if light.dark or light.fog:
        _beam(sheet, x, foot - high * 0.9)
    _rock(sheet, light, x, level, h)
    _tower(
        sheet,
        light,
        x,
        foot,
        high,
        (178, 62, 50) if "red" in told else chance.choice(((178, 62, 50), (62, 84, 110), INK)),
    )
    _surf(sheet, light, x, level + h * 0.05)
    things.gulls(sheet, light, chance.randint(0, 7), level)
    things.weather(sheet, light, level)


def _beam(sheet: Sheet, x: float, y: float) -> None:
    for side, reach in ((-1, sheet.w), (1, sheet.w)):
        far = x + side * reach
        sheet.shape(
            [(x, y - 3), (far, y - sheet.h * 0.16), (far, y + sheet.h * 0.02), (x, y + 3)],
            (250, 232, 180),
            rough=1.4,
            alpha=0.17,
        )


def _rock(sheet: Sheet, light: Light, x: float, level: float, h: float) -> None:
    chance, stone = sheet.chance, light.on((92, 88, 86))
    points = [(x - h * 0.42, level + h * 0.06), (x - h * 0.27, level + h * 0.012), (x - h * 0.12, level - h * 0.03),
              (x + h * 0.12, level - h * 0.032), (x + h * 0.24, level + h * 0.006), (x + h * 0.44, level + h * 0.062)]  # fmt: skip
    sheet.shape(points, SNOW if light.snow else stone, to=shade(stone, 0.7), wobble=5, rough=1.3)
    for _ in range(6):
        left = x + h * chance.uniform(-0.25, 0.2)
        sheet.stroke([(left, level + h * 0.02), (left + h * 0.05, level + h * 0.045)], 3, shade(stone, 0.66), alpha=0.7)


def _tower(sheet: Sheet, light: Light, x: float, foot: float, high: float, band: tuple) -> None:
    white, colour = light.on((236, 228, 212)), light.on(band)
    wide, narrow = high * 0.11, high * 0.07
    bands = sheet.chance.choice((1, 3, 5))
    for n in range(bands):
        low, up = n / bands, (n + 1) / bands
        at = [wide + (narrow - wide) * share for share in (low, up)]
        y = [foot - high * 0.8 * share for share in (low, up)]
        tone = colour if n % 2 == 0 else white
        sheet.shape([(x - at[0], y[0]), (x - at[1], y[1]), (x + at[1], y[1]), (x + at[0], y[0])], tone, rough=0.7)
    sheet.shape([(x + wide * 0.35, foot), (x + narrow * 0.35, foot - high * 0.8), (x + narrow, foot - high * 0.8), (x + wide, foot)],
                shade(colour, 0.7), alpha=0.35)  # fmt: skip
    sheet.box(x - narrow * 1.35, foot - high * 0.83, narrow * 2.7, high * 0.03, light.on(INK), rough=0.6)
    sheet.box(x - narrow * 0.75, foot - high * 0.93, narrow * 1.5, high * 0.1, LAMP, rough=0.6)
    sheet.shape([(x - narrow, foot - high * 0.93), (x, foot - high), (x + narrow, foot - high * 0.93)], colour)
    if light.dark:
        sheet.glow(x, foot - high * 0.88, high * 0.5, LAMP, 0.6)


def _surf(sheet: Sheet, light: Light, x: float, y: float) -> None:
    for _ in range(14):
        far = sheet.chance.uniform(-0.4, 0.34) * sheet.h
        things.lens(sheet, x + far, y + sheet.chance.uniform(-4, 18), sheet.h * 0.1, 8, light.on((236, 240, 238)), 0.8)


def bridge(sheet: Sheet, light: Light, told: str) -> None:
    """Arches or a lift bridge, and the same again in the river."""
    chance, w, h = sheet.chance, sheet.w, sheet.h
    level = h * chance.uniform(0.56, 0.62)
    things.sky(sheet, light, level)
    _moon_if_told(sheet, told)
    things.far_shore(sheet, light, level)
    if "öland" in told or "long" in told:
        _long_bridge(sheet, light, level)
    else:
        things.row_of_houses(sheet, light, level, h * 0.14, depth=0.25)
        _arches(sheet, light, level, chance.choice((2, 3, 3, 4)))
    _reflected(sheet, light, level)
    for _ in range(6 if "cap" in told else 0):
        things.capped_head(sheet, light, w * chance.uniform(0.2, 0.8), level + h * chance.uniform(0.1, 0.3), h * 0.035)
    _fires(sheet, told, level)
    _floes_if_cold(sheet, light, level)
    if chance.random() < 0.5:
        _near_tree(sheet, light)
    things.weather(sheet, light, level)


def _arches(sheet: Sheet, light: Light, level: float, number: int) -> None:
    w, h = sheet.w, sheet.h
    stone, deck = light.on(sheet.chance.choice(((164, 116, 90), (170, 158, 138), (138, 92, 76)))), level - h * 0.13
    rise = h * 0.035
    sheet.shape(
        [(-20, deck + rise), (w / 2, deck - rise), (w + 20, deck + rise), (w + 20, level + 3), (-20, level + 3)],
        stone,
        to=shade(stone, 0.86),
    )
    span = w / number
    for n in range(number):
        middle = span * (n + 0.5)
        turns = [math.pi * k / 16 for k in range(17)]
        arch = [(middle - math.cos(t) * span * 0.4, level + 4 - math.sin(t) * h * 0.1) for t in turns]
        sheet.shape(arch, mix(light.sky[-1], light.water()[1], 0.55), to=shade(light.water()[1], 0.8), wobble=0.6)
        sheet.stroke(arch, 5, shade(stone, 0.76))
    sheet.stroke(
        [(-20, deck + rise), (w / 2, deck - rise), (w + 20, deck + rise)],
        9,
        light.on(SNOW) if light.snow else shade(stone, 1.15),
    )
    for n in range(number + 1):
        things.lamp_post(sheet, light, span * n + 12, deck + rise * (1 - 2 * min(n, number - n) / number) + 4, h * 0.1)


def _long_bridge(sheet: Sheet, light: Light, level: float) -> None:
    w, h = sheet.w, sheet.h
    line = [(w * n / 20, level - h * (0.03 + 0.1 * (n / 20) ** 2)) for n in range(21)]
    grey = light.on((148, 142, 136), 0.15)
    for x, y in line[1:]:
        sheet.stroke([(x, y), (x, level)], 3 + x / w * 9, grey)
    sheet.stroke([(-10, level - h * 0.03), *line, (w + 10, level - h * 0.135)], 9, grey)
    for x, y in line[::2]:
        sheet.glow(x, y - 8, 26, LAMP, 0.7)
        sheet.oval(x, y - 8, 6, 6, LAMP, rough=0.3)


def _fires(sheet: Sheet, told: str, level: float) -> None:
    if "fire" not in told:
        return
    for n in range(13):
        x, y = sheet.w * (0.06 + 0.073 * n), level + 4 + sheet.chance.uniform(0, 8)
        sheet.glow(x, y, 60, (255, 170, 80), 0.7)
        sheet.shape([(x - 7, y), (x - 2, y - 20), (x + 2, y - 12), (x + 5, y - 24), (x + 8, y)], (255, 196, 96))
        things.lens(sheet, x - 12, y + 18, 24, 6, (240, 160, 90), 0.7)


def _near_tree(sheet: Sheet, light: Light) -> None:
    x = sheet.w * sheet.chance.choice((0.06, 0.94))
    things.tree(sheet, light, x, sheet.h * 1.02, sheet.h * 0.75)


def snow(sheet: Sheet, light: Light, told: str) -> None:
    """A yard, a lane or an open field under snow."""
    chance, w, h = sheet.chance, sheet.w, sheet.h
    level = h * chance.uniform(0.48, 0.58)
    things.sky(sheet, light, level, clouds=chance.random() < 0.4)
    if "trawler" in told or "sund" in told:
        things.sea(sheet, light, level, h * 0.86)
        things.fishing_boat(sheet, light, w * 0.5, h * 0.72, h * 0.36)
    else:
        sheet.wash([light.on(SNOW, 0.4), light.on(SNOW)], level - 2, h)
        things.far_shore(sheet, light, level, high=0.06)
        _snowed_in(sheet, light, level)
    _drifts(sheet, light, level if "trawler" not in told and "sund" not in told else h * 0.82)
    if chance.random() < 0.6:
        things.tree(sheet, light, w * chance.choice((0.12, 0.86)), h * 0.8, h * 0.55)
    if "cat" in told:
        things.cat(sheet, light, w * 0.4, h * 0.84, h * 0.09)
    things.falling_snow(sheet, light, chance.choice((0, 90, 220)))
    things.weather(sheet, light, level)


def _snowed_in(sheet: Sheet, light: Light, level: float) -> None:
    chance, w, h = sheet.chance, sheet.w, sheet.h
    if chance.random() < 0.5:
        things.steeple(sheet, light, w * chance.uniform(0.2, 0.8), level + 10, h * 0.42)
    for place in chance.sample((0.05, 0.25, 0.45, 0.62), chance.randint(2, 4)):
        things.house(
            sheet,
            light,
            w * place,
            level + h * 0.09,
            h * 0.2,
            h * 0.15,
            gable=chance.choice(("straight", "side")),
            depth=0.06,
        )


def _drifts(sheet: Sheet, light: Light, level: float) -> None:
    chance, w, h = sheet.chance, sheet.w, sheet.h
    white = light.on(SNOW)
    for n in range(3):
        y = level + (h - level) * (0.16 + 0.26 * n)
        crest = [(w * k / 8, y + chance.uniform(-1, 1) * h * 0.022) for k in range(9)]
        tone = mix(white, light.sky[0], 0.24 - 0.1 * n)
        sheet.shape(
            [(-10, y), *crest, (w + 10, y), (w + 10, h + 10), (-10, h + 10)], tone, to=shade(tone, 0.95), rough=1.3
        )
    start, bend = w * chance.uniform(0.3, 0.7), chance.uniform(-0.3, 0.3)
    steps = []
    for n in range(16):
        share = n / 16
        x, y = start + bend * w * share**1.5 + (-1) ** n * 16 * (1 - share), h - (h - level) * 0.8 * share
        steps.append([(x - 9 * (1.1 - share), y), (x, y - 5), (x + 9 * (1.1 - share), y), (x, y + 5)])
    sheet.many(steps, mix(white, light.sky[0], 0.55), alpha=0.8)


def garden(sheet: Sheet, light: Light, told: str) -> None:
    """Beds and a wall, a tree, a bench, whatever flowers."""
    chance, w, h = sheet.chance, sheet.w, sheet.h
    level = h * chance.uniform(0.4, 0.5)
    things.sky(sheet, light, level)
    sheet.wash([light.on((150, 150, 120), 0.3), light.on((140, 138, 110))], level - 2, level + h * 0.14)
    things.far_shore(sheet, light, level + h * 0.03, high=0.05)
    things.house(sheet, light, w * chance.uniform(0.05, 0.6), level + h * 0.06, h * 0.34, h * 0.24, gable="side")
    wall = light.on((172, 154, 132))
    sheet.box(-10, level + h * 0.01, w + 20, h * 0.12, wall, to=shade(wall, 0.86), dry=0.1)
    grass = light.on(SNOW if light.snow else (118, 138, 84) if light.season != "autumn" else (150, 138, 84))
    sheet.wash([grass, shade(grass, 0.76)], level + h * 0.12, h)
    _path(sheet, light, level + h * 0.12)
    if "tree" in told or "pear" in told or "apple" in told or chance.random() < 0.6:
        things.tree(sheet, light, w * chance.choice((0.22, 0.76)), h * 0.8, h * 0.62)
    _climbers(sheet, light, level + h * 0.05)
    _flowers(sheet, light, h * 0.72)
    if "bench" in told or chance.random() < 0.35:
        _bench(sheet, light, w * 0.5, h * 0.84, h * 0.34)
    if "cat" in told or chance.random() < 0.2:
        things.cat(sheet, light, w * 0.64, h * 0.8, h * 0.1)
    things.weather(sheet, light, level)


def _path(sheet: Sheet, light: Light, top: float) -> None:
    w, h, gravel = sheet.w, sheet.h, light.on((206, 190, 160))
    middle = w * sheet.chance.uniform(0.4, 0.6)
    sheet.shape(
        [(middle - 14, top), (middle + 14, top), (middle + w * 0.16, h + 10), (middle - w * 0.16, h + 10)],
        gravel,
        dry=0.15,
    )


def _climbers(sheet: Sheet, light: Light, y: float) -> None:
    chance = sheet.chance
    if light.season == "winter":
        return
    for _ in range(46):
        x, size = chance.uniform(0, sheet.w), chance.uniform(14, 40)
        sheet.oval(
            x,
            y + chance.gauss(0, 26),
            size,
            size * 0.7,
            shade(light.on(chance.choice(things.GREENS)), chance.uniform(0.8, 1.1)),
            rough=2,
        )


def _flowers(sheet: Sheet, light: Light, top: float) -> None:
    chance = sheet.chance
    heads = {"spring": ((236, 214, 110), (206, 150, 190), (240, 236, 226)), "summer": ((206, 76, 74), (232, 160, 160), (240, 226, 190)),
             "autumn": ((176, 78, 88), (222, 140, 64), (150, 104, 144)), "winter": ()}[light.season]  # fmt: skip
    if not heads:
        return
    for _ in range(90):
        x, depth = chance.uniform(0, sheet.w), chance.random()
        y, size = top + (sheet.h - top) * depth, 10 + 22 * depth
        if abs(x / sheet.w - 0.5) < 0.12 + 0.06 * depth:
            continue
        sheet.stroke([(x, y), (x + chance.gauss(0, 4), y + size * 2)], 2.4, light.on((82, 108, 72)), alpha=0.9)
        sheet.oval(x, y, size, size * 0.85, light.on(chance.choice(heads)), rough=1.6)


def _bench(sheet: Sheet, light: Light, x: float, foot: float, size: float) -> None:
    wood = light.on((112, 92, 72))
    for level in (0.3, 0.44, 0.56):
        sheet.box(x - size / 2, foot - size * level, size, size * 0.06, wood, rough=0.8)
    for side in (-0.42, 0.42):
        sheet.stroke([(x + size * side, foot), (x + size * side, foot - size * 0.56)], size * 0.045, shade(wood, 0.8))


def jetty(sheet: Sheet, light: Light, told: str) -> None:
    """Planks or stone running out, a ladder, a towel, heads in caps."""
    chance, w, h = sheet.chance, sheet.w, sheet.h
    level = h * chance.uniform(0.38, 0.46)
    things.sky(sheet, light, level)
    _moon_if_told(sheet, told)
    things.far_shore(sheet, light, level, high=chance.choice((0.03, 0.09)))
    things.sea(sheet, light, level)
    side = chance.choice((-1, 1))
    _floes_if_cold(sheet, light, level)
    tip = _planks(sheet, light, level, side)
    _ladder(sheet, light, tip, h)
    if "chair" in told:
        _chair(sheet, light, tip[0] - side * h * 0.02, tip[1] + h * 0.16, h * 0.2)
    if "towel" in told or chance.random() < 0.45:
        _rail_with_towel(sheet, light, side)
    for _ in range(_heads(told, chance)):
        x, depth = w / 2 - side * w * chance.uniform(0.02, 0.4), chance.uniform(0.1, 0.55)
        things.capped_head(sheet, light, x, level + (h - level) * depth, h * (0.022 + 0.07 * depth))
    things.gulls(sheet, light, chance.randint(0, 5), level)
    things.weather(sheet, light, level)


def _heads(told: str, chance) -> int:
    if "nobody" in told or "chair" in told or "no more" in told:
        return 0
    for word, number in (("nine", 9), ("six", 7), ("head", 1), ("cap", 4)):
        if word in told:
            return number
    return chance.choice((0, 1, 3))


def _planks(sheet: Sheet, light: Light, level: float, side: int) -> tuple[float, float]:
    """The jetty in perspective from the foot of the picture; gives its far end."""
    w, h, chance = sheet.w, sheet.h, sheet.chance
    wood = light.on(SNOW if light.snow else chance.choice(((150, 126, 100), (140, 136, 130), (126, 104, 86))))
    near, far = w / 2 + side * w * 0.24, w / 2 + side * w * 0.1
    end, wide, slim = level + h * 0.1, w * 0.27, w * 0.055
    for n in range(5):
        share = n / 5
        for edge in (-1, 1):
            x = near + (far - near) * share + edge * (wide + (slim - wide) * share) * 0.96
            y = h + (end - h) * share
            sheet.stroke([(x, y), (x, y + h * 0.12 * (1.15 - share))], 18 * (1.1 - share) + 3, shade(wood, 0.5))
    sheet.shape(
        [(near - wide, h + 10), (far - slim, end), (far + slim, end), (near + wide, h + 10)],
        mix(wood, light.sky[-1], 0.2),
        to=shade(wood, 0.9),
    )
    for n in range(26):
        share = 1 - (1 - n / 26) ** 2.2
        y, half, middle = h + (end - h) * share, wide + (slim - wide) * share, near + (far - near) * share
        sheet.stroke([(middle - half, y), (middle + half, y)], 3.4 * (1 - share) + 1, shade(wood, 0.66), alpha=0.75)
    return far, end


def _ladder(sheet: Sheet, light: Light, tip: tuple[float, float], h: float) -> None:
    x, y = tip
    iron = light.on((70, 74, 80))
    for side in (-1, 1):
        sheet.stroke([(x + side * h * 0.024, y + h * 0.03), (x + side * h * 0.024, y - h * 0.09)], 5, iron)
    for rung in (0.0, 0.035):
        sheet.stroke([(x - h * 0.024, y - h * rung), (x + h * 0.024, y - h * rung)], 4, iron)


def _chair(sheet: Sheet, light: Light, x: float, foot: float, size: float) -> None:
    paint = light.on(sheet.chance.choice(((196, 92, 66), (92, 124, 138), (226, 206, 160))))
    for far in (-0.26, 0.26):
        sheet.stroke(
            [(x + size * far, foot), (x + size * far, foot - size * (0.5 if far > 0 else 1))],
            size * 0.06,
            shade(paint, 0.75),
        )
    sheet.box(x - size * 0.3, foot - size * 0.5, size * 0.6, size * 0.1, paint)
    sheet.box(x - size * 0.31, foot - size, size * 0.09, size * 0.5, paint)
    for level in (0.95, 0.75):
        sheet.box(x - size * 0.3, foot - size * level, size * 0.5, size * 0.09, shade(paint, 0.92))


def _rail_with_towel(sheet: Sheet, light: Light, side: int) -> None:
    w, h, iron = sheet.w, sheet.h, light.on((82, 84, 88))
    x = w / 2 + side * w * 0.05
    top = h * 0.66
    sheet.stroke([(x - w * 0.1, h * 0.98), (x - w * 0.1, top), (x + w * 0.1, top), (x + w * 0.1, h * 0.98)], 9, iron)
    cloth = light.on(sheet.chance.choice(((236, 228, 208), (196, 92, 66), (92, 132, 150), (226, 182, 84))))
    sheet.shape([(x - w * 0.07, top - 6), (x + w * 0.05, top - 6), (x + w * 0.055, top + h * 0.17), (x - w * 0.065, top + h * 0.19)],
                cloth, to=shade(cloth, 0.86), wobble=3)  # fmt: skip
    for stripe in (0.12, 0.145):
        sheet.stroke(
            [(x - w * 0.066, top + h * stripe), (x + w * 0.053, top + h * (stripe - 0.01))],
            5,
            shade(cloth, 0.6),
            alpha=0.8,
        )


def street(sheet: Sheet, light: Light, told: str) -> None:
    """A street of gabled houses running away from the eye."""
    chance, w, h = sheet.chance, sheet.w, sheet.h
    level = h * chance.uniform(0.5, 0.58)
    middle = w * chance.uniform(0.4, 0.6)
    things.sky(sheet, light, level)
    _moon_if_told(sheet, told)
    if chance.random() < 0.7:
        things.steeple(sheet, light, middle + w * chance.uniform(-0.04, 0.04), level + h * 0.05, h * 0.44, depth=0.4)
    _pavement(sheet, light, middle, level)
    for side in (-1, 1):
        _side_of_street(sheet, light, middle, level, side)
    if "tram" in told or "wire" in told:
        _wires(sheet, light, middle, level)
    things.lamp_post(sheet, light, middle + chance.choice((-1, 1)) * w * 0.2, h * 0.86, h * 0.42)
    if chance.random() < 0.5:
        things.bicycle(sheet, light, w * chance.choice((0.22, 0.78)), h * 0.9, h * 0.22)
    if "cat" in told or chance.random() < 0.25:
        things.cat(sheet, light, middle, h * 0.85, h * 0.07)
    if "petal" in told:
        things.falling_snow(sheet, light, 120)
    things.weather(sheet, light, level)


def _pavement(sheet: Sheet, light: Light, middle: float, level: float) -> None:
    w, h, chance = sheet.w, sheet.h, sheet.chance
    stone = light.on(SNOW if light.snow else chance.choice(((158, 148, 138), (142, 140, 142), (172, 152, 130))))
    sheet.wash([mix(stone, light.sky[-1], 0.35), shade(stone, 0.78)], level - 2, h)
    for _ in range(130):
        depth = chance.random() ** 0.8
        y, x = level + h * 0.05 + (h - level) * depth, chance.uniform(0, w)
        things.lens(sheet, x, y, 8 + 46 * depth, 2 + 8 * depth, shade(stone, chance.choice((0.7, 0.86, 1.12))), 0.5)
    if light.dark:
        things.glitter(sheet, middle, level + h * 0.1, h, mix(LAMP, stone, 0.4))


def _side_of_street(sheet: Sheet, light: Light, middle: float, level: float, side: int) -> None:
    """Houses from the far end forward, each nearer one larger."""
    w, h, chance = sheet.w, sheet.h, sheet.chance
    edge = 0 if side < 0 else w
    count = 5
    for n in range(count):
        share = ((n + 1) / count) ** 1.5
        before = (n / count) ** 1.5
        inner = middle + side * w * 0.06 + (edge - middle - side * w * 0.06) * before
        outer = middle + side * w * 0.06 + (edge + side * w * 0.04 - middle - side * w * 0.06) * share
        foot = level + h * 0.05 + h * 0.3 * (share + before) / 2
        high = h * (0.13 + 0.36 * share)
        left, width = min(inner, outer), abs(outer - inner) + 6
        gable = chance.choice(("stepped", "bell", "straight")) if width < high else chance.choice(("side", "stepped"))
        things.house(sheet, light, left, foot, width, high, gable=gable, depth=0.34 * (1 - share))


def _wires(sheet: Sheet, light: Light, middle: float, level: float) -> None:
    for far in (-0.5, -0.16, 0.18, 0.52):
        sheet.stroke([(middle, level - sheet.h * 0.1), (middle + sheet.w * far, -10)], 2.4, light.on(INK), alpha=0.75)
    for y in (0.12, 0.26):
        sheet.stroke(
            [(0, sheet.h * y), (middle, sheet.h * (y + 0.035)), (sheet.w, sheet.h * y)], 2, light.on(INK), alpha=0.7
        )
