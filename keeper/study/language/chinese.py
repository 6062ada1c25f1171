"""Chinese, which is written without spaces: its words, as the shipped table has them.

Of all ways to part a run of characters the likeliest is taken, each word as likely as Zipf's law makes it by its place
among those most used (a unigram model, found by dynamic programming: R. Sproat, C. Shih, W. Gale & N. Chang, A stochastic
finite-state word-segmentation algorithm for Chinese, Computational Linguistics 22, 1996).
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from keeper.study.language.listed import ranks

_RUN = re.compile("(?P<han>[\u3005\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff\U00020000-\U0003ffff]+)|[^\\W\\d_]+")
LONGEST = 5
UNKNOWN = 14.0  # of a character that is no word, as a natural logarithm; less likely than any word listed
TELLING = frozenset(
    "雨雪风云雷雾霜冰山海河湖江溪泉岛船车书画歌琴棋舞茶酒饭菜肉鱼虾蟹鸡鸭鹅狗猫马牛羊猪兔鼠蛇龙虎鸟蜂蝶虫花草树林竹叶果桃梨瓜豆米面饼糕糖盐油汤粥蛋奶"
    "药病血骨牙眼耳鼻嘴手脚腿腰背肩胃肺心脑梦睡觉床灯窗门墙桥路街村镇城店庙塔井田园火烟光星月灰煤铁金银铜钱衣裙裤鞋帽包伞球剧戏诗信报纸笔税债枪刀兵"
)
"""Single characters that say what a line is about; the others mostly do not."""


def is_chinese(word: str) -> bool:
    """Whether a word is of Chinese characters alone."""
    match = _RUN.fullmatch(word)
    return match is not None and match.lastgroup == "han"


def content_words(text: str) -> list[tuple[str, str]] | None:
    """(stem, word) of the words of a text, in order; None where there is no table to part it by."""
    known = ranks("zh")
    if not known:
        return None
    found: list[tuple[str, str]] = []
    for match in _RUN.finditer(text):
        words = parted(match.group(), known) if match.lastgroup == "han" else [match.group()]
        found += [(word.casefold(), word) for word in words if len(word) > 1 or word in TELLING]
    return found


def parted(run: str, known: dict[str, int]) -> Sequence[str]:
    """The likeliest words of a run of characters; `known`: the place of each word among those most used."""
    costs, starts = [0.0] + [math.inf] * len(run), [0] * (len(run) + 1)
    for end in range(1, len(run) + 1):
        for start in range(max(0, end - LONGEST), end):
            cost = costs[start] + _cost(run[start:end], known)
            if cost < costs[end]:
                costs[end], starts[end] = cost, start
    words, end = [], len(run)
    while end:
        words.append(run[starts[end] : end])
        end = starts[end]
    return words[::-1]


def _cost(word: str, known: dict[str, int]) -> float:
    rank = known.get(word)
    if rank is not None:
        return math.log(rank + 2)
    return UNKNOWN if len(word) == 1 else math.inf
