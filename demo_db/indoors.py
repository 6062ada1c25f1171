"""The motifs seen indoors. Each takes the sheet, the light outside and the caption."""

import math

from demo_db import things
from demo_db.light import Light
from demo_db.paint import Colour, Sheet, mix, shade
from demo_db.things import INK, LAMP

WOODS = ((108, 68, 46), (66, 42, 36), (150, 98, 58), (48, 40, 42), (128, 84, 60))
FELTS = ((150, 46, 46), (70, 104, 82), (58, 76, 112))


class Room:
    """The light within: by day from the window, in the evening from a lamp."""

    def __init__(self, light: Light) -> None:
        self.light = light
        self.lamp = light.dark

    def on(self, colour: Colour) -> Colour:
        """A thing's colour in the room."""
        if self.lamp:
            return mix(shade(colour, 0.86), (240, 160, 84), 0.17)
        return mix(shade(colour, 0.95), self.light.sky[1], 0.1)


def wall(sheet: Sheet, room: Room, foot: float) -> None:
    """A painted wall down to a table's edge or the floor."""
    tone = room.on(
        sheet.chance.choice(
            ((122, 138, 128), (186, 160, 120), (134, 100, 88), (96, 112, 126), (196, 182, 152), (160, 122, 104))
        )
    )
    sheet.wash([shade(tone, 0.82), tone, shade(tone, 0.94)], 0, foot)


def table(sheet: Sheet, room: Room, top: float) -> Colour:
    """A table or board filling the lower part."""
    wood = room.on(sheet.chance.choice(((156, 112, 74), (184, 144, 100), (126, 88, 62), (198, 170, 134))))
    sheet.wash([shade(wood, 1.06), shade(wood, 0.8)], top, sheet.h)
    for _ in range(16):
        y = sheet.chance.uniform(top + 8, sheet.h)
        x = sheet.chance.uniform(-200, sheet.w * 0.8)
        things.lens(
            sheet, x, y, sheet.w * sheet.chance.uniform(0.2, 0.7), 4, shade(wood, sheet.chance.choice((0.8, 1.12))), 0.4
        )
    sheet.stroke([(0, top), (sheet.w, top)], 5, shade(wood, 0.62), alpha=0.7)
    return wood


def keys(sheet: Sheet, light: Light, told: str) -> None:
    """A keyboard close by: naturals, sharps, red felt, the wood above it."""
    room, chance, w, h = Room(light), sheet.chance, sheet.w, sheet.h
    wood = room.on(chance.choice(WOODS))
    sheet.wash([shade(wood, 0.8), shade(wood, 1.08), shade(wood, 0.9)], 0, h * 0.4)
    _grain(sheet, wood, h * 0.38)
    if any(word in told for word in ("open", "lid", "front off", "wire", "string", "repair")) or chance.random() < 0.3:
        _strings(sheet, room, h * 0.36)
    else:
        _music(sheet, room, w * chance.uniform(0.25, 0.75), h * 0.33)
    felt = room.on((104, 138, 92) if "green" in told else chance.choice(FELTS))
    sheet.box(-10, h * 0.385, w + 20, h * 0.035, felt, rough=1.2)
    count = chance.choice((11, 14, 17))
    _naturals(sheet, room, h * 0.415, h * 0.86, count, told)
    _sharps(sheet, room, h * 0.41, h * 0.67, count)
    sheet.box(-10, h * 0.87, w + 20, h * 0.14, shade(wood, 1.02), to=shade(wood, 0.7))
    _on_the_slip(sheet, room, told, h)
    if room.lamp:
        sheet.glow(w * chance.uniform(0.2, 0.8), h * 0.1, h * 0.9, LAMP, 0.35)


def _grain(sheet: Sheet, wood: Colour, bottom: float) -> None:
    for _ in range(22):
        y = sheet.chance.uniform(0, bottom)
        things.lens(sheet, sheet.chance.uniform(-300, sheet.w), y, sheet.w * sheet.chance.uniform(0.2, 0.6), 5,
                    shade(wood, sheet.chance.choice((0.74, 0.86, 1.2))), 0.4)  # fmt: skip


def _strings(sheet: Sheet, room: Room, bottom: float) -> None:
    w = sheet.w
    sheet.box(w * 0.04, -10, w * 0.92, bottom + 6, room.on((64, 48, 42)), to=room.on((96, 70, 52)))
    plate = room.on((186, 146, 78))
    sheet.box(w * 0.04, bottom * 0.1, w * 0.92, bottom * 0.14, plate, rough=0.8)
    for n in range(46):
        x = w * (0.06 + 0.88 * n / 46)
        sheet.stroke(
            [(x, bottom * 0.2), (x - w * 0.02, bottom)],
            1.8 if n > 16 else 3.4,
            room.on((206, 190, 158) if n > 16 else (176, 112, 68)),
        )
        sheet.oval(x, bottom * 0.17, 8, 8, room.on((92, 88, 88)), rough=0.4)
    hammers = [[(w * (0.06 + 0.88 * n / 23) - 9, bottom * 0.66), (w * (0.06 + 0.88 * n / 23) + 9, bottom * 0.66),
                (w * (0.06 + 0.88 * n / 23) + 7, bottom * 0.84), (w * (0.06 + 0.88 * n / 23) - 7, bottom * 0.84)] for n in range(24)]  # fmt: skip
    sheet.many(hammers, room.on((228, 216, 190)))


def _music(sheet: Sheet, room: Room, x: float, foot: float) -> None:
    chance, h = sheet.chance, sheet.h
    for side in (-1, 1):
        left, width, top = (x if side > 0 else x - h * 0.24), h * 0.24, foot - h * 0.28
        sheet.box(left, top, width, h * 0.28, room.on((238, 228, 204)), to=room.on((222, 208, 180)), wobble=2)
        for staff in range(4):
            for line in range(4):
                y = top + h * (0.035 + 0.062 * staff) + line * 5
                sheet.stroke(
                    [(left + 14, y), (left + width - 14, y)], 1.3, room.on((110, 100, 92)), rough=0.3, alpha=0.7
                )
            notes = [(left + 22 + n * 24, top + h * (0.035 + 0.062 * staff) + chance.uniform(-2, 16)) for n in range(7)]
            sheet.many([[(px - 5, py), (px, py - 4), (px + 5, py), (px, py + 4)] for px, py in notes], room.on(INK))


def _naturals(sheet: Sheet, room: Room, top: float, bottom: float, count: int, told: str) -> None:
    chance, width = sheet.chance, sheet.w / count
    ivory = room.on((236, 226, 200))
    missing = chance.randrange(2, count - 2) if "blank" in told or "bed" in told or chance.random() < 0.12 else None
    sheet.wash([room.on((60, 46, 40)), room.on((40, 34, 34))], top, bottom + 6)
    for n in range(count):
        if n == missing:
            continue
        down = 10 if chance.random() < 0.05 else 0
        tone = shade(ivory, chance.uniform(0.94, 1.04))
        sheet.box(
            n * width + 1.6,
            top,
            width - 3.2,
            bottom - top - 14 + down,
            shade(tone, 0.9),
            to=tone,
            rough=0.5,
            wobble=0.5,
        )
        sheet.box(n * width + 1.6, bottom - 16 + down, width - 3.2, 16, shade(tone, 0.78), rough=0.5, wobble=0.4)


def _sharps(sheet: Sheet, room: Room, top: float, bottom: float, count: int) -> None:
    width, black, start = sheet.w / count, room.on((38, 34, 38)), sheet.chance.randrange(7)
    for n in range(count + 1):
        if (n + start) % 7 in (0, 3):
            continue
        x = n * width
        sheet.box(x - width * 0.29, top, width * 0.58, bottom - top, shade(black, 0.7), rough=0.6, wobble=0.6)
        sheet.box(
            x - width * 0.22, top, width * 0.44, bottom - top - 22, shade(black, 1.2), to=black, rough=0.5, wobble=0.6
        )


def _on_the_slip(sheet: Sheet, room: Room, told: str, h: float) -> None:
    """A tool or a small thing laid down before the keys."""
    chance, x = sheet.chance, sheet.w * sheet.chance.uniform(0.25, 0.75)
    if "flour" in told:
        for _ in range(60):
            size = chance.uniform(4, 22)
            sheet.oval(
                chance.uniform(0, sheet.w),
                chance.uniform(h * 0.66, h * 0.86),
                size,
                size * 0.5,
                (244, 240, 230),
                alpha=0.6,
                rough=2,
            )
    if "ring" in told or "cup" in told:
        things.cup(sheet, room, x, h * 0.95, h * 0.12)
    elif chance.random() < 0.6:
        _lever(sheet, room, x, h * 0.935, h * 0.4)


def _lever(sheet: Sheet, room: Room, x: float, y: float, size: float) -> None:
    """A tuning lever lying flat."""
    tilt = sheet.chance.uniform(-0.06, 0.06) * size
    sheet.stroke([(x - size * 0.1, y), (x + size * 0.5, y + tilt)], size * 0.035, room.on((168, 168, 166)))
    sheet.stroke([(x - size * 0.5, y - tilt), (x - size * 0.1, y)], size * 0.085, room.on((140, 78, 50)))
    sheet.stroke(
        [(x + size * 0.48, y + tilt), (x + size * 0.5, y + tilt + size * 0.1)], size * 0.06, room.on((150, 150, 150))
    )


def hall(sheet: Sheet, light: Light, told: str) -> None:
    """A hall with tall windows, a grand on the boards, chairs in rows."""
    room, chance, w, h = Room(light), sheet.chance, sheet.w, sheet.h
    floor = h * chance.uniform(0.6, 0.66)
    wall(sheet, room, floor)
    _tall_windows(sheet, light, room, floor, chance.choice((2, 3, 3, 4)))
    wood = room.on((158, 112, 72))
    sheet.wash([shade(wood, 1.08), shade(wood, 0.72)], floor, h)
    for n in range(-9, 10):
        sheet.stroke([(w / 2 + n * w * 0.07, floor), (w / 2 + n * w * 0.24, h)], 2.2, shade(wood, 0.7), alpha=0.5)
    _light_on_floor(sheet, room, floor)
    x = w * chance.uniform(0.42, 0.62)
    if "upright" in told or "harmonium" in told or "back room" in told:
        _upright(sheet, room, x, floor + h * 0.14, h * 0.36)
    else:
        _grand(sheet, room, x, floor + h * 0.16, h * 0.46, "widow" in told)
    if any(word in told for word in ("women", "thirty", "choir", "boots", "basses")):
        _choir(sheet, room, floor + h * 0.02, 2 if "two" in told else 15)
    _chairs(sheet, room, h)
    if room.lamp:
        _hanging_lamps(sheet, floor)


def _tall_windows(sheet: Sheet, light: Light, room: Room, floor: float, number: int) -> None:
    gap = sheet.w / number
    for n in range(number):
        middle, half, top, sill = gap * (n + 0.5), min(gap * 0.27, sheet.h * 0.14), floor * 0.2, floor * 0.82
        arch = [
            (middle - math.cos(math.pi * k / 12) * half, top - math.sin(math.pi * k / 12) * half * 0.8)
            for k in range(13)
        ]
        outline = [(middle - half, sill), *arch, (middle + half, sill)]
        sheet.shape(outline, light.sky[0], to=light.sky[-1], rough=0.7)
        frame = room.on((226, 214, 190))
        sheet.stroke([*outline, outline[0]], 9, frame)
        sheet.stroke([(middle, sill), (middle, top - half * 0.8)], 5, frame)
        for level in (0.3, 0.6):
            y = top + (sill - top) * level
            sheet.stroke([(middle - half, y), (middle + half, y)], 5, frame)


def _light_on_floor(sheet: Sheet, room: Room, floor: float) -> None:
    if room.lamp:
        return
    w, h = sheet.w, sheet.h
    for n in range(3):
        x = w * (0.14 + 0.3 * n)
        sheet.shape([(x, floor + h * 0.05), (x + w * 0.12, floor + h * 0.05), (x + w * 0.05, h * 0.96), (x - w * 0.12, h * 0.96)],
                    mix(room.light.sky[-1], (255, 244, 214), 0.5), alpha=0.3, rough=1.8)  # fmt: skip


def _grand(sheet: Sheet, room: Room, x: float, foot: float, size: float, in_black: bool) -> None:
    """A grand piano from the side, lid up or down."""
    black = room.on((40, 36, 40) if in_black else sheet.chance.choice(((40, 36, 40), (40, 36, 40), (96, 58, 42))))
    body = foot - size * 0.36
    for leg in (-0.5, 0.1, 0.52):
        sheet.stroke([(x + size * leg, body), (x + size * leg * 0.97, foot)], size * 0.05, shade(black, 0.9))
    if sheet.chance.random() < 0.7:
        lid = [
            (x - size * 0.38, body - size * 0.14),
            (x + size * 0.5, body - size * 0.68),
            (x + size * 0.68, body - size * 0.5),
            (x + size * 0.6, body - size * 0.12),
        ]
        sheet.shape(lid, shade(black, 1.28), to=shade(black, 1.08))
        sheet.stroke(
            [(x + size * 0.3, body - size * 0.13), (x + size * 0.36, body - size * 0.54)],
            size * 0.016,
            shade(black, 1.5),
        )
    form = [(x - size * 0.62, body - size * 0.1), (x - size * 0.4, body - size * 0.15), (x + size * 0.62, body - size * 0.15),
            (x + size * 0.66, body + size * 0.04), (x - size * 0.62, body + size * 0.04)]  # fmt: skip
    sheet.shape(form, shade(black, 1.1), to=shade(black, 0.8))
    sheet.box(x - size * 0.64, body - size * 0.07, size * 0.17, size * 0.035, room.on((236, 226, 200)), rough=0.6)
    sheet.stroke(
        [(x - size * 0.38, body - size * 0.155), (x + size * 0.6, body - size * 0.155)],
        4,
        room.on((196, 158, 92)),
        alpha=0.8,
    )
    stool = x - size * 0.82
    sheet.box(stool - size * 0.12, foot - size * 0.22, size * 0.22, size * 0.055, room.on((120, 60, 50)))
    for leg in (-0.09, 0.07):
        sheet.stroke([(stool + size * leg, foot - size * 0.17), (stool + size * leg, foot)], size * 0.025, black)


def _upright(sheet: Sheet, room: Room, x: float, foot: float, size: float) -> None:
    wood = room.on(sheet.chance.choice(WOODS))
    sheet.box(x - size * 0.6, foot - size, size * 1.2, size, shade(wood, 1.1), to=shade(wood, 0.85))
    sheet.box(x - size * 0.64, foot - size * 1.03, size * 1.28, size * 0.06, shade(wood, 1.2))
    for side in (-0.5, 0.06):
        sheet.box(x + size * side, foot - size * 0.9, size * 0.44, size * 0.26, shade(wood, 0.86), rough=0.8)
    sheet.box(x - size * 0.66, foot - size * 0.56, size * 1.32, size * 0.1, shade(wood, 0.7))
    sheet.box(x - size * 0.56, foot - size * 0.555, size * 1.12, size * 0.05, room.on((236, 226, 200)), rough=0.6)
    sheet.many([[(x - size * 0.53 + n * size * 0.047, foot - size * 0.555), (x - size * 0.51 + n * size * 0.047, foot - size * 0.555),
                 (x - size * 0.51 + n * size * 0.047, foot - size * 0.53), (x - size * 0.53 + n * size * 0.047, foot - size * 0.53)]
                for n in range(23) if n % 7 not in (2, 6)], room.on(INK))  # fmt: skip


def _choir(sheet: Sheet, room: Room, foot: float, number: int) -> None:
    chance, h = sheet.chance, sheet.h
    for n in range(number):
        x = sheet.w * ((n + 0.5) / number) + chance.gauss(0, 8)
        high, coat = (
            h * chance.uniform(0.22, 0.28),
            room.on(chance.choice(((60, 70, 92), (120, 60, 58), (92, 104, 88), (150, 124, 92), (70, 56, 66)))),
        )
        sheet.shape([(x - high * 0.2, foot), (x - high * 0.17, foot - high * 0.62), (x, foot - high * 0.74), (x + high * 0.17, foot - high * 0.62),
                     (x + high * 0.2, foot)], coat, to=shade(coat, 0.82))  # fmt: skip
        sheet.oval(x, foot - high * 0.86, high * 0.2, high * 0.24, room.on((222, 180, 150)))
        sheet.oval(
            x,
            foot - high * 0.93,
            high * 0.23,
            high * 0.16,
            room.on(chance.choice(((70, 56, 50), (180, 172, 164), (150, 104, 66)))),
        )


def _chairs(sheet: Sheet, room: Room, h: float) -> None:
    wood = room.on((92, 66, 52))
    count = sheet.chance.choice((0, 5, 6, 7))
    for n in range(count):
        x, size = sheet.w * (n + 0.5) / count, h * 0.2
        sheet.box(x - size * 0.3, h * 0.84, size * 0.6, size * 0.16, wood, rough=0.9)
        for side in (-0.28, 0.28):
            sheet.stroke([(x + size * side, h * 0.84), (x + size * side, h * 1.02)], size * 0.06, wood)


def _hanging_lamps(sheet: Sheet, floor: float) -> None:
    for place in (0.25, 0.5, 0.75):
        x, y = sheet.w * place, floor * 0.16
        sheet.stroke([(x, 0), (x, y)], 2.4, (60, 50, 46))
        sheet.glow(x, y + 10, sheet.h * 0.34, LAMP, 0.5)
        sheet.shape([(x - 34, y + 14), (x - 14, y - 10), (x + 14, y - 10), (x + 34, y + 14)], (250, 222, 160))


def window(sheet: Sheet, light: Light, told: str) -> None:
    """From a room into the open, over a sill with one or two things on it."""
    room, chance, w, h = Room(light), sheet.chance, sheet.w, sheet.h
    left, right, top, sill = w * 0.14, w * 0.86, h * 0.08, h * 0.74
    _outlook(sheet, light, sill)
    if light.rain or "rain" in told or "steam" in told:
        sheet.veil(light.sky[-1], 0.3)
        things.falling_rain(sheet, light, top, sill)
    _frame(sheet, room, left, right, top, sill)
    _sill(sheet, room, sill)
    _curtains(sheet, room, left, right, top, sill)
    _on_the_sill(sheet, room, told, sill + h * 0.07)
    if room.lamp:
        sheet.glow(w * chance.choice((0.12, 0.88)), h * 0.62, h * 0.6, LAMP, 0.55)


def _outlook(sheet: Sheet, light: Light, sill: float) -> None:
    chance, h = sheet.chance, sheet.h
    level = sill * chance.uniform(0.56, 0.72)
    things.sky(sheet, light, level)
    if chance.random() < 0.5:
        things.far_shore(sheet, light, level)
        things.sea(sheet, light, level, sill + h * 0.05)
        things.sailing_boat(sheet, light, sheet.w * chance.uniform(0.3, 0.7), level + h * 0.06, h * 0.14)
    else:
        things.far_shore(sheet, light, level + 4, high=0.05)
        sheet.wash([light.on((120, 124, 110), 0.3), light.on((110, 112, 100))], level, sill + h * 0.05)
        things.steeple(sheet, light, sheet.w * chance.uniform(0.25, 0.75), sill, h * 0.52)
        things.row_of_houses(sheet, light, sill + h * 0.08, h * 0.26, depth=0.12)
    if chance.random() < 0.5:
        things.tree(sheet, light, sheet.w * chance.choice((0.25, 0.72)), sill + h * 0.06, h * 0.5)
    if light.snow:
        things.falling_snow(sheet, light, 90)


def _frame(sheet: Sheet, room: Room, left: float, right: float, top: float, sill: float) -> None:
    w, h = sheet.w, sheet.h
    tone = room.on(sheet.chance.choice(((150, 126, 104), (118, 132, 128), (168, 140, 104), (138, 106, 96))))
    if room.lamp:
        tone = shade(tone, 0.8)
    for x, y, width, high in ((-10, -10, left + 10, h), (right, -10, w - right + 10, h), (-10, -10, w + 20, top + 10)):
        sheet.box(x, y, width, high, tone, to=shade(tone, 0.88), rough=0.7)
    paint = room.on((232, 224, 206))
    bars = sheet.chance.choice((1, 2))
    for n in range(bars + 2):
        x = left + (right - left) * n / (bars + 1)
        sheet.box(x - 9, top, 18, sill - top, paint, to=shade(paint, 0.9), rough=0.6)
    for level in (0, sheet.chance.choice((0.34, 0.5)), 1):
        sheet.box(left - 9, top + (sill - top) * level - 9, right - left + 18, 18, paint, rough=0.6)


def _sill(sheet: Sheet, room: Room, sill: float) -> None:
    w, h, board = sheet.w, sheet.h, room.on((214, 200, 176))
    below = room.on((128, 108, 92))
    sheet.box(-10, sill + h * 0.02, w + 20, h, below, to=shade(below, 0.8))
    sheet.shape(
        [(w * 0.1, sill), (w * 0.9, sill), (w * 0.96, sill + h * 0.09), (w * 0.04, sill + h * 0.09)],
        board,
        to=shade(board, 0.9),
    )
    sheet.box(w * 0.04, sill + h * 0.09, w * 0.92, h * 0.03, shade(board, 0.74))


def _curtains(sheet: Sheet, room: Room, left: float, right: float, top: float, sill: float) -> None:
    chance, h = sheet.chance, sheet.h
    if chance.random() < 0.35:
        return
    cloth = room.on(chance.choice(((206, 190, 158), (156, 86, 74), (104, 128, 122), (222, 212, 190))))
    for side, edge in ((1, left - 30), (-1, right + 30)):
        inner = edge + side * sheet.w * 0.13
        sheet.shape([(edge, top - 22), (inner, top - 22), (inner - side * 30, sill * 0.62), (edge + side * 24, sill + h * 0.02), (edge, sill + h * 0.02)],
                    cloth, to=shade(cloth, 0.84), wobble=3, alpha=0.96)  # fmt: skip
        for fold in (0.25, 0.55, 0.8):
            x = edge + (inner - edge) * fold
            sheet.stroke(
                [(x, top - 16), (x - side * 12, sill * 0.6), (edge + side * 14, sill)], 4, shade(cloth, 0.78), alpha=0.6
            )


def _on_the_sill(sheet: Sheet, room: Room, told: str, foot: float) -> None:
    chance, w, h = sheet.chance, sheet.w, sheet.h
    places = chance.sample((0.24, 0.42, 0.6, 0.76), 3)
    if "cat" in told or "bishop" in told or chance.random() < 0.15:
        things.cat(sheet, room, w * places[0], foot, h * 0.2)
    if "candle" in told:
        for place in (0.3, 0.5, 0.7):
            _candle(sheet, w * place, foot, h * 0.16)
    elif chance.random() < 0.65:
        _pot_plant(sheet, room, w * places[1], foot, h * 0.24)
    if chance.random() < 0.55:
        things.cup(sheet, room, w * places[2], foot + h * 0.005, h * 0.09)


def _candle(sheet: Sheet, x: float, foot: float, high: float) -> None:
    sheet.glow(x, foot - high * 1.12, high * 1.6, LAMP, 0.6)
    sheet.box(x - high * 0.08, foot - high, high * 0.16, high, (240, 230, 206))
    sheet.oval(x, foot - high * 1.14, high * 0.1, high * 0.24, (255, 226, 150))


def _pot_plant(sheet: Sheet, room: Room, x: float, foot: float, size: float) -> None:
    chance, pot = sheet.chance, room.on((184, 100, 68))
    bloom = room.on(chance.choice(((206, 66, 66), (230, 150, 160), (240, 230, 214))))
    for _ in range(13):
        reach, turn = size * chance.uniform(0.4, 0.68), chance.uniform(-1.1, 1.1)
        tip = (x + math.sin(turn) * reach, foot - size * 0.34 - math.cos(turn) * reach)
        sheet.stroke([(x, foot - size * 0.32), tip], 3, room.on((80, 112, 74)))
        leaf = room.on(chance.choice(things.GREENS))
        sheet.oval(*tip, size * 0.17, size * 0.14, leaf, rough=1.5)
        if chance.random() < 0.4:
            sheet.oval(tip[0] + 4, tip[1] - 8, size * 0.12, size * 0.11, bloom, rough=1.6)
    sheet.shape(
        [
            (x - size * 0.2, foot - size * 0.36),
            (x + size * 0.2, foot - size * 0.36),
            (x + size * 0.15, foot),
            (x - size * 0.15, foot),
        ],
        pot,
        to=shade(pot, 0.8),
    )
    sheet.box(x - size * 0.22, foot - size * 0.38, size * 0.44, size * 0.07, shade(pot, 1.1))


def bread(sheet: Sheet, light: Light, told: str) -> None:
    """A loaf or rolls on a board, a knife, a cup."""
    room, chance, w, h = Room(light), sheet.chance, sheet.w, sheet.h
    top = h * chance.uniform(0.36, 0.46)
    wall(sheet, room, top)
    if chance.random() < 0.45:
        _low_window(sheet, light, room, w * chance.choice((0.2, 0.5, 0.78)), top)
    table(sheet, room, top)
    if chance.random() < 0.5:
        _tablecloth(sheet, room, top)
    if chance.random() < 0.45:
        _jar(sheet, room, w * chance.choice((0.24, 0.72)), top + h * 0.07, h * 0.24)
    board = room.on((206, 168, 116))
    x, y = w * chance.uniform(0.42, 0.58), h * chance.uniform(0.66, 0.72)
    size = min(w, h) * 0.62
    sheet.oval(x, y + size * 0.14, size * 1.3, size * 0.4, shade(board, 0.72))
    sheet.oval(x, y + size * 0.12, size * 1.28, size * 0.38, board, rough=1.2)
    if any(word in told for word in ("poppy", "doughnut", "roll", "bun", "kringle", "pierogi", "egg")):
        _rolls(sheet, room, x, y, size, "poppy" in told)
    elif any(word in told for word in ("herring", "sprat", "fish", "smelt")):
        _fish_on_bread(sheet, room, x, y, size)
    else:
        for offset in (-0.3, 0.3) if "two" in told else (0,):
            _loaf(sheet, room, x + offset * size, y, size * (0.62 if "two" in told else 0.9), "not yet" not in told)
    if chance.random() < 0.7:
        _knife(sheet, room, x + size * 0.1, y + size * 0.34, size * 0.7)
    things.cup(sheet, room, w * chance.choice((0.14, 0.88)), h * chance.uniform(0.56, 0.62), h * 0.15)
    if room.lamp:
        sheet.glow(w * chance.uniform(0.2, 0.8), h * 0.1, h * 0.9, LAMP, 0.4)


def _low_window(sheet: Sheet, light: Light, room: Room, x: float, top: float) -> None:
    """The lower part of a window, above the table."""
    half, foot = sheet.h * 0.2, top - sheet.h * 0.05
    sheet.box(x - half, -10, half * 2, foot + 10, light.sky[1], to=light.sky[-1], rough=0.7)
    frame = room.on((226, 216, 196))
    for far in (-1, 0, 1):
        sheet.box(x + half * far - 8, -10, 16, foot + 10, frame, rough=0.6)
    sheet.box(x - half - 20, foot - 6, half * 2 + 40, 20, frame, rough=0.7)


def _tablecloth(sheet: Sheet, room: Room, top: float) -> None:
    """A checked or striped cloth over the table."""
    chance, w, h = sheet.chance, sheet.w, sheet.h
    linen, stripe = room.on((228, 218, 198)), room.on(chance.choice(((176, 78, 66), (84, 116, 138), (124, 134, 92))))
    sheet.wash([linen, shade(linen, 0.88)], top + h * 0.02, h)
    for n in range(-8, 9):
        sheet.stroke([(w / 2 + n * w * 0.09, top + h * 0.02), (w / 2 + n * w * 0.17, h)], 12, stripe, alpha=0.5)
    for n in range(5 if chance.random() < 0.6 else 0):
        y = top + h * (0.05 + 0.028 * n * (n + 2))
        sheet.stroke([(0, y), (w, y)], 6 + 3 * n, stripe, alpha=0.4)


def _jar(sheet: Sheet, room: Room, x: float, foot: float, size: float) -> None:
    """A jar with a few stalks in it, or a jug without."""
    glaze, chance = room.on(sheet.chance.choice(((112, 138, 148), (214, 204, 182), (150, 96, 70)))), sheet.chance
    for _ in range(chance.choice((0, 5, 7))):
        tip = (x + chance.gauss(0, size * 0.24), foot - size * chance.uniform(1.0, 1.5))
        sheet.stroke([(x, foot - size * 0.7), tip], 3, room.on((92, 112, 76)))
        sheet.oval(
            *tip,
            size * 0.16,
            size * 0.15,
            room.on(chance.choice(((226, 190, 84), (206, 96, 92), (236, 230, 218)))),
            rough=1.5,
        )
    sheet.shape([(x - size * 0.16, foot - size * 0.8), (x + size * 0.16, foot - size * 0.8), (x + size * 0.28, foot - size * 0.42),
                 (x + size * 0.2, foot), (x - size * 0.2, foot), (x - size * 0.28, foot - size * 0.42)], glaze, to=shade(glaze, 0.8))  # fmt: skip
    sheet.oval(x, foot - size * 0.8, size * 0.34, size * 0.09, shade(glaze, 0.75))


def _loaf(sheet: Sheet, room: Room, x: float, y: float, size: float, cut: bool) -> None:
    chance, crust = (
        sheet.chance,
        room.on(sheet.chance.choice(((126, 78, 46), (170, 112, 62), (92, 60, 42), (186, 132, 78)))),
    )
    high = size * chance.uniform(0.36, 0.54)
    back = [
        (x - size * 0.5 * math.cos(math.pi * n / 14), y - high * math.sin(math.pi * n / 14) ** 0.6) for n in range(15)
    ]
    sheet.shape(
        [*back, (x + size * 0.46, y + size * 0.1), (x - size * 0.46, y + size * 0.1)],
        shade(crust, 1.15),
        to=shade(crust, 0.72),
        rough=1.4,
    )
    for n in range(4):
        left = x - size * 0.3 + n * size * 0.17
        sheet.stroke(
            [(left, y - high * 0.72), (left + size * 0.08, y - high * 0.3)], size * 0.03, shade(crust, 1.45), alpha=0.8
        )
    for _ in range(34):
        sheet.oval(
            x + chance.gauss(0, size * 0.2),
            y - high * chance.uniform(0.4, 0.9),
            7,
            4,
            (236, 226, 204),
            alpha=0.5,
            rough=1,
        )
    if cut:
        _cut_end(sheet, room, x, y, size, high, crust)


def _cut_end(sheet: Sheet, room: Room, x: float, y: float, size: float, high: float, crust: Colour) -> None:
    """The crumb where the loaf was cut, and the slice beside it."""
    end = x + size * 0.44
    sheet.oval(end, y - high * 0.3, size * 0.2, high * 0.98, shade(crust, 0.8))
    sheet.oval(end + 3, y - high * 0.3, size * 0.16, high * 0.84, room.on((198, 160, 112)), rough=1.5)
    slice_x = end + size * 0.22
    sheet.oval(slice_x, y + size * 0.12, size * 0.42, size * 0.14, shade(crust, 0.8))
    sheet.oval(slice_x, y + size * 0.105, size * 0.38, size * 0.11, room.on((206, 170, 122)), rough=1.5)


def _rolls(sheet: Sheet, room: Room, x: float, y: float, size: float, seeded: bool) -> None:
    chance = sheet.chance
    for row, number in ((0, 4), (1, 5)):
        for n in range(number):
            px, py = x + (n - (number - 1) / 2) * size * 0.25 + chance.gauss(0, 4), y - size * 0.08 + row * size * 0.15
            crust = room.on(chance.choice(((196, 136, 74), (182, 118, 62), (210, 152, 92))))
            sheet.oval(px, py, size * 0.25, size * 0.19, shade(crust, 0.8))
            sheet.oval(px - 3, py - 7, size * 0.21, size * 0.14, crust, rough=1.4)
            dots = [(px + chance.gauss(0, size * 0.045), py - 10 + chance.gauss(0, size * 0.025)) for _ in range(26)]
            sheet.many(
                [[(a - 2.4, b), (a, b - 2), (a + 2.4, b), (a, b + 2)] for a, b in dots],
                room.on((52, 50, 58) if seeded else (244, 236, 220)),
            )


def _fish_on_bread(sheet: Sheet, room: Room, x: float, y: float, size: float) -> None:
    for n in range(4):
        fish_y, left = y - size * 0.1 + n * size * 0.085, x - size * 0.36 + n * 12
        silver = room.on(sheet.chance.choice(((166, 160, 138), (190, 158, 96), (146, 152, 158))))
        body = [(left, fish_y), (left + size * 0.12, fish_y - size * 0.045), (left + size * 0.5, fish_y - size * 0.035), (left + size * 0.64, fish_y),
                (left + size * 0.5, fish_y + size * 0.035), (left + size * 0.12, fish_y + size * 0.04)]  # fmt: skip
        sheet.shape(body, shade(silver, 0.72), to=shade(silver, 1.2))
        sheet.shape(
            [
                (left + size * 0.61, fish_y),
                (left + size * 0.72, fish_y - size * 0.05),
                (left + size * 0.72, fish_y + size * 0.05),
            ],
            shade(silver, 0.8),
        )
        sheet.oval(left + size * 0.06, fish_y - 4, 9, 9, room.on(INK), rough=0.5)


def _knife(sheet: Sheet, room: Room, x: float, y: float, size: float) -> None:
    sheet.shape(
        [(x - size * 0.5, y), (x + size * 0.06, y - size * 0.035), (x + size * 0.06, y + size * 0.025)],
        room.on((196, 196, 190)),
    )
    sheet.stroke([(x + size * 0.06, y), (x + size * 0.36, y + size * 0.01)], size * 0.055, room.on((88, 58, 46)))


def forks(sheet: Sheet, light: Light, told: str) -> None:
    """Tuning forks on a table, on felt, in a box or on a letter."""
    room, chance, w, h = Room(light), sheet.chance, sheet.w, sheet.h
    top = h * chance.uniform(0.14, 0.3)
    wall(sheet, room, top)
    table(sheet, room, top)
    x, y = w * chance.uniform(0.44, 0.56), h * 0.6
    ground = chance.choice((_felt_cloth, _box, _paper))
    if any(word in told for word in ("invoice", "letter", "tray", "paper")):
        ground = _paper
    ground(sheet, room, x, y, min(w, h))
    number = 7 if "seven" in told else 2 if "435" in told or "waiting" in told else chance.choice((1, 1, 2, 3))
    size = min(w, h) * (0.52 if number > 3 else 0.66)
    for n in range(number):
        lean = chance.uniform(-0.25, 0.25) if number > 1 else chance.uniform(-0.7, 0.7)
        _fork(sheet, room, x + (n - (number - 1) / 2) * size * 0.24, y, size * chance.uniform(0.84, 1.05), lean)
    if "bun" in told or chance.random() < 0.35:
        things.cup(sheet, room, w * chance.choice((0.12, 0.88)), h * 0.5, h * 0.15)
    if room.lamp:
        sheet.glow(w * chance.uniform(0.15, 0.85), h * 0.08, h * 0.95, LAMP, 0.42)


def _felt_cloth(sheet: Sheet, room: Room, x: float, y: float, size: float) -> None:
    cloth = room.on(sheet.chance.choice(FELTS))
    sheet.shape([(x - size * 0.52, y - size * 0.34), (x + size * 0.5, y - size * 0.38), (x + size * 0.6, y + size * 0.34), (x - size * 0.56, y + size * 0.38)],
                cloth, to=shade(cloth, 0.86), rough=1.8, wobble=3)  # fmt: skip


def _box(sheet: Sheet, room: Room, x: float, y: float, size: float) -> None:
    wood, lining = room.on((120, 76, 50)), room.on(sheet.chance.choice(FELTS))
    sheet.box(x - size * 0.56, y - size * 0.4, size * 1.12, size * 0.8, shade(wood, 0.9), to=shade(wood, 0.7))
    sheet.box(x - size * 0.52, y - size * 0.36, size * 1.04, size * 0.72, lining, to=shade(lining, 0.85))
    sheet.stroke([(x - size * 0.56, y - size * 0.4), (x + size * 0.56, y - size * 0.4)], 8, shade(wood, 1.25))


def _paper(sheet: Sheet, room: Room, x: float, y: float, size: float) -> None:
    leaf, lean = room.on((236, 226, 202)), sheet.chance.uniform(-0.12, 0.12)
    corners = [(-0.42, -0.42), (0.42, -0.42), (0.42, 0.42), (-0.42, 0.42)]
    sheet.shape(
        [(x + (a - b * lean) * size, y + (b + a * lean) * size) for a, b in corners],
        leaf,
        to=shade(leaf, 0.94),
        wobble=2,
    )
    for n in range(11):
        b, a = -0.34 + 0.062 * n, sheet.chance.uniform(0.12, 0.36)
        ends = [(-0.35, b), (a, b)]
        sheet.stroke(
            [(x + (p - q * lean) * size, y + (q + p * lean) * size) for p, q in ends],
            3,
            room.on((92, 96, 120)),
            alpha=0.55,
        )


def _fork(sheet: Sheet, room: Room, x: float, y: float, size: float, lean: float) -> None:
    """A fork seen from above, prongs up, leaning by an angle."""
    steel = room.on(sheet.chance.choice(((156, 160, 164), (120, 122, 128), (176, 150, 104))))
    turn = [math.cos(lean), math.sin(lean)]

    def at(a: float, b: float) -> tuple[float, float]:
        return x + (a * turn[0] - b * turn[1]) * size, y + (a * turn[1] + b * turn[0]) * size

    bend = [at(-0.065 * math.cos(t), 0.08 + 0.07 * math.sin(t)) for t in [math.pi * n / 8 for n in range(9)]]
    outline = [at(-0.065, -0.46), *bend, at(0.065, -0.46)]
    shadow = [(px + 9, py + 12) for px, py in outline]
    for line, tone, alpha in ((shadow, shade(steel, 0.3), 0.35), (outline, steel, 1)):
        sheet.stroke(line, size * 0.046, tone, alpha=alpha)
    stem = [at(0, 0.15), at(0, 0.42)]
    sheet.stroke([(px + 9, py + 12) for px, py in stem], size * 0.05, shade(steel, 0.3), alpha=0.35)
    sheet.stroke(stem, size * 0.05, shade(steel, 0.92))
    sheet.oval(*at(0, 0.44), size * 0.085, size * 0.085, shade(steel, 0.9))
    sheet.stroke([at(-0.072, -0.44), at(-0.072, 0.06)], size * 0.012, shade(steel, 1.5), alpha=0.8)
    sheet.stroke([at(0.058, -0.44), at(0.058, 0.06)], size * 0.012, shade(steel, 1.5), alpha=0.8)


def cabin(sheet: Sheet, light: Light, told: str) -> None:
    """A ship's cabin: porthole, bunk, lamp, what hangs on the hook."""
    room, chance, w, h = Room(light), sheet.chance, sheet.w, sheet.h
    panel = room.on(chance.choice(((206, 186, 150), (176, 190, 180), (186, 142, 104), (214, 204, 186))))
    sheet.wash([shade(panel, 0.9), panel], 0, h)
    for n in range(1, 6):
        sheet.stroke([(w * n / 6, 0), (w * n / 6, h)], 3, shade(panel, 0.78), alpha=0.7)
    x, y, radius = w * chance.uniform(0.36, 0.64), h * chance.uniform(0.28, 0.36), min(w, h) * 0.2
    _porthole(sheet, light, room, x, y, radius)
    _bunk(sheet, room, h * chance.uniform(0.64, 0.7))
    side = -1 if x > w / 2 else 1
    _bed_lamp(sheet, room, x + side * w * 0.3, h * 0.4, h * 0.14)
    if "towel" in told or "cap" in told or (w > h and chance.random() < 0.6):
        _hung_towel(sheet, room, x - side * w * 0.29, h * 0.22, h * 0.28, "cap" in told)
    if any(word in told for word in ("lemon", "move", "letter", "book", "chess")) or chance.random() < 0.4:
        _on_the_bunk(sheet, room, told)


def _porthole(sheet: Sheet, light: Light, room: Room, x: float, y: float, radius: float) -> None:
    brass = room.on((188, 150, 88))
    sheet.oval(x, y, radius * 2.5, radius * 2.5, shade(brass, 0.78))
    sheet.oval(x - 3, y - 4, radius * 2.38, radius * 2.38, brass)
    turns = [2 * math.pi * n / 60 for n in range(60)]
    disc = [(x + radius * math.cos(t), y + radius * math.sin(t)) for t in turns]
    sheet.shape(disc, light.sky[0], to=light.sky[-1], wobble=0.3, rough=0.6)
    level = sheet.chance.uniform(0.05, 0.4)
    low = [point for point in disc if point[1] > y + radius * level]
    low.sort(key=lambda point: point[0])
    sheet.shape(low, light.water()[0], to=light.water()[2], wobble=0.3, rough=0.6)
    for _ in range(7):
        px, py = x + sheet.chance.uniform(-0.6, 0.4) * radius, y + radius * sheet.chance.uniform(level + 0.1, 0.72)
        things.lens(sheet, px, py, radius * 0.28, 5, light.sky[-1], 0.6)
    for n in range(8):
        t = 2 * math.pi * (n + 0.5) / 8
        sheet.oval(
            x + radius * 1.11 * math.cos(t), y + radius * 1.11 * math.sin(t), 12, 12, shade(brass, 0.6), rough=0.5
        )


def _bunk(sheet: Sheet, room: Room, top: float) -> None:
    w, h = sheet.w, sheet.h
    wool, linen = (
        room.on(sheet.chance.choice(((150, 62, 54), (72, 98, 112), (188, 142, 78), (98, 116, 90)))),
        room.on((236, 230, 214)),
    )
    sheet.shape([(-10, top), (w + 10, top - 10), (w + 10, h + 10), (-10, h + 10)], wool, to=shade(wool, 0.7), wobble=3)
    sheet.shape(
        [(-10, top - 4), (w * 0.42, top - 16), (w * 0.4, top + h * 0.1), (-10, top + h * 0.12)],
        shade(linen, 0.9),
        wobble=3,
    )
    sheet.oval(w * 0.16, top - h * 0.015, w * 0.34, h * 0.15, linen, to=shade(linen, 0.84), rough=1.3)
    for n in range(3):
        y = top + h * (0.14 + 0.055 * n)
        sheet.stroke([(w * 0.42, y), (w + 10, y - 8)], 9 if n == 1 else 5, shade(wool, 1.3), alpha=0.75)
    sheet.box(-10, h * 0.93, w + 20, h * 0.1, room.on((118, 80, 56)), to=room.on((92, 62, 46)))


def _bed_lamp(sheet: Sheet, room: Room, x: float, y: float, size: float) -> None:
    brass = room.on((176, 136, 78))
    if room.lamp:
        sheet.glow(x, y, size * 4.6, LAMP, 0.62)
    sheet.stroke([(x, y + size * 0.7), (x, y)], size * 0.07, brass)
    sheet.shape([(x - size * 0.5, y + size * 0.14), (x - size * 0.24, y - size * 0.42), (x + size * 0.24, y - size * 0.42), (x + size * 0.5, y + size * 0.14)],
                LAMP if room.lamp else room.on((222, 206, 170)))  # fmt: skip


def _hung_towel(sheet: Sheet, room: Room, x: float, top: float, size: float, cap: bool) -> None:
    cloth = room.on(sheet.chance.choice(((232, 224, 204), (122, 152, 162), (196, 104, 78))))
    sheet.stroke([(x - size * 0.32, top), (x + size * 0.32, top)], 8, room.on((176, 136, 78)))
    sheet.shape([(x - size * 0.22, top - 5), (x + size * 0.2, top - 5), (x + size * 0.21, top + size * 0.78), (x - size * 0.2, top + size * 0.86)],
                cloth, to=shade(cloth, 0.84), wobble=3)  # fmt: skip
    sheet.stroke([(x - size * 0.2, top + size * 0.66), (x + size * 0.2, top + size * 0.62)], 7, shade(cloth, 0.62))
    if cap:
        sheet.oval(x + size * 0.36, top + size * 0.12, size * 0.26, size * 0.24, room.on((232, 190, 70)))


def _on_the_bunk(sheet: Sheet, room: Room, told: str) -> None:
    w, h = sheet.w, sheet.h
    x, y = w * 0.66, h * 0.8
    if "lemon" in told:
        sheet.oval(x, y, h * 0.1, h * 0.075, room.on((236, 206, 84)))
    elif "move" in told or "chess" in told:
        _chessboard(sheet, room, x, y, h * 0.3)
    else:
        sheet.shape([(x - h * 0.15, y), (x, y - h * 0.03), (x + h * 0.15, y), (x + h * 0.13, y + h * 0.09), (x, y + h * 0.06), (x - h * 0.13, y + h * 0.09)],
                    room.on((238, 230, 210)), to=room.on((220, 208, 184)))  # fmt: skip
        sheet.stroke([(x, y - h * 0.03), (x, y + h * 0.06)], 3, room.on((150, 130, 110)))


def _chessboard(sheet: Sheet, room: Room, x: float, y: float, size: float) -> None:
    squares = []
    for row in range(8):
        for column in range(8):
            if (row + column) % 2:
                left, up = x - size / 2 + column * size / 8, y - size * 0.26 + row * size * 0.065
                squares.append(
                    [(left, up), (left + size / 8, up), (left + size / 8, up + size * 0.065), (left, up + size * 0.065)]
                )
    sheet.box(x - size * 0.54, y - size * 0.29, size * 1.08, size * 0.58, room.on((206, 172, 122)))
    sheet.many(squares, room.on((96, 62, 46)))
    for _ in range(9):
        px, py = x + sheet.chance.uniform(-0.44, 0.44) * size, y + sheet.chance.uniform(-0.2, 0.24) * size
        sheet.oval(px, py - 12, 13, 22, room.on(sheet.chance.choice(((240, 232, 214), (40, 36, 40)))), rough=0.7)
