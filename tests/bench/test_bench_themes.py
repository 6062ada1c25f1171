"""Themes against the bare pipeline, and how well they agree with labels that people gave.

The labelled lines are glosses of WordNet, which lie in tests/data. ``KEEPER_LABELLED`` names a file of others (label, tab,
line); the figures to beat were reached on short lines about happy moments (Asai et
al., LREC 2018), whose licence keeps them out of the checkout.
"""

import os
import random
import subprocess
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path
from statistics import median

import pytest
from diary_lines import shuffled
from sklearn.metrics import adjusted_mutual_info_score, adjusted_rand_score

from keeper.study.themes import group_lines
from keeper.study.themes.nouns import Begin, ThemeLine
from keeper.study.themes.rebuilding import rebuild, redraw

ROOT = Path(__file__).resolve().parents[2]
GIVEN = os.environ.get("KEEPER_LABELLED")
NIGHT = date(2024, 1, 1)


def read_labelled():
    """Label and text of each line."""
    if GIVEN:
        return [row.split("\t", 1) for row in Path(GIVEN).read_text("utf-8").splitlines()]
    rows = (ROOT / "tests" / "data" / "wordnet_glosses.tsv").read_text("utf-8").splitlines()[1:]
    return [[label, text] for label, _, text in (row.split("\t", 2) for row in rows)]


LINES = read_labelled()


def sizes(*wished):
    """Those of the cases for whose size there are lines enough, thirty more than they say."""
    return [one for one in wished if one[0] + 30 <= len(LINES)]


def reached(*figures):
    """The figures to beat, which hold for the lines given."""
    return f" (to beat: {', '.join(map(str, figures))})" if GIVEN else ""


def drawn(lines, count, seed):
    part = random.Random(seed).sample(lines, count)
    return [label for label, _ in part], [text for _, text in part]


def many_texts(count, seed=0):
    """Lines of a made-up tongue with subjects, as many as wished."""
    rng = random.Random(seed)
    subjects = [[f"w{s}x{i}" for i in range(400)] for s in range(25)]
    common = [f"c{i}" for i in range(600)]
    return [
        " ".join(rng.choices(rng.choice(subjects), k=5) + rng.choices(common, k=6)) for _ in range(count)
    ]


def bare(texts):
    from sklearn.cluster import KMeans
    from sklearn.decomposition import TruncatedSVD
    from sklearn.feature_extraction.text import TfidfVectorizer

    points = TruncatedSVD(100, random_state=0).fit_transform(TfidfVectorizer().fit_transform(texts))
    return KMeans(20, random_state=0).fit_predict(points)


@pytest.mark.parametrize(("count", "rounds"), [(3000, 3), (55_000, 1)])
def test_rebuild_against_the_bare_pipeline(compared, count, rounds):
    texts = many_texts(count)
    lines = [ThemeLine(str(i), text, NIGHT) for i, text in enumerate(texts)]
    bare(texts[:500])
    rebuild(lines[:500])
    target = 4 if count < 10_000 else 1.5
    compared(f"{count} lines", lambda n: rebuild(lines, seed=n), lambda n: bare(texts), rounds=max(2, rounds), target=target)


def test_placing_one_line(benchmark):
    texts = many_texts(3000)
    fitted = rebuild([ThemeLine(str(i), text, NIGHT) for i, text in enumerate(texts)]).fitted
    benchmark(fitted.place, texts[0])


def test_memory_of_fifty_years():
    """Peak memory of a process of its own that rebuilds 55,000 lines; the target is 450 MB.

    Read from the kernel's own page, not from getrusage: that also tells what the process was before it began this
    program, which is as large as the tests are by now.
    """
    status = Path("/proc/self/status")
    if not status.is_file():
        pytest.skip("no page of the kernel tells the peak here")
    program = (
        "import re, sys; sys.path[:0] = ['tests', 'tests/support', 'tests/bench']; import test_bench_themes as b;"
        "from keeper.study.themes.nouns import ThemeLine; from keeper.study.themes.rebuilding import rebuild;"
        "rebuild([ThemeLine(str(i), t, b.NIGHT) for i, t in enumerate(b.many_texts(55_000))]);"
        "print(int(re.search(r'VmHWM:\\s+(\\d+)', open('/proc/self/status').read())[1]) // 1024)"
    )
    done = subprocess.run([sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, check=True)
    print(f"\n55,000 lines: {done.stdout.strip()} MB at most (target 450)")


@pytest.mark.parametrize(
    ("count", "times", "least", "aim"),
    sizes((365, 9, 0.49, 0.52), (1000, 7, 0.52, 0.55), (3000, 3, 0.52, 0.55), (7000, 1, 0.53, 0.55)),
)
def test_agreement_with_the_true_number(count, times, least, aim):
    scores = []
    for seed in range(times):
        labels, texts = drawn(LINES, count, seed)
        scores.append(adjusted_mutual_info_score(labels, group_lines(texts, count=len(set(labels)))))
    print(f"\n{count} lines, true number: AMI {median(scores):.3f}{reached(least, aim)}")


def as_shown(texts):
    """A label for each text as the program shows it, without the single themes that could be chance."""
    found = rebuild([ThemeLine(str(i), text, NIGHT) for i, text in enumerate(texts)])
    theme_of = {line: theme.id for theme in found.themes for line, _ in theme.members}
    return [theme_of.get(str(i), -1) for i in range(len(texts))]


@pytest.mark.parametrize(("count", "times", "least"), sizes((365, 9, 0.47), (1000, 7, 0.51), (3000, 3, 0.50)))
def test_agreement_with_a_number_of_our_own(count, times, least):
    scores, likeness, off, shown = [], [], [], []
    for seed in range(times):
        labels, texts = drawn(LINES, count, seed)
        found = group_lines(texts)
        shown.append(adjusted_mutual_info_score(labels, as_shown(texts)))
        scores.append(adjusted_mutual_info_score(labels, found))
        likeness.append(adjusted_rand_score(labels, found))
        off.append(abs(len(set(found) - {-1}) - len(set(labels))))
    print(
        f"\n{count} lines, own number: AMI {median(scores):.3f}{reached(least)}, ARI {median(likeness):.3f}, "
        f"off by {sum(off) / len(off):.1f}; as the program shows them: AMI {median(shown):.3f}"
    )


@pytest.mark.parametrize(("count", "times", "aim"), sizes((365, 9, 0.61), (1000, 7, 0.56)))
def test_agreement_on_eight_labels(count, times, aim):
    names = [label for label, _ in LINES]
    eight = sorted(set(names), key=lambda label: (-names.count(label), label))[:8]
    kept, scores = [row for row in LINES if row[0] in eight], []
    for seed in range(times):
        labels, texts = drawn(kept, count, seed)
        scores.append(adjusted_mutual_info_score(labels, group_lines(texts, count=8)))
    print(f"\n{count} lines of eight labels: AMI {median(scores):.3f}{reached(aim)}")


@pytest.mark.parametrize(("count",), sizes((100,), (365,), (1000,), (3000,)))
def test_shuffled_lines_have_no_theme(count):
    for seed in range(4):
        assert set(group_lines(shuffled(drawn(LINES, count, seed)[1], seed))) == {-1}


@pytest.mark.parametrize(("count",), sizes((365,), (1000,), (3000,)))
def test_old_lines_after_thirty_more(count):
    scores = []
    for seed in range(3):
        texts = drawn(LINES, count + 30, seed)[1]
        all_lines = [ThemeLine(str(i), text, NIGHT) for i, text in enumerate(texts)]
        before = rebuild(all_lines[:count])
        after = rebuild(all_lines, before)
        old, new = ({line: t.id for t in found.themes for line, _ in t.members} for found in (before, after))
        ids = [line.id for line in all_lines[:count]]
        scores.append(adjusted_rand_score([old.get(i, -1) for i in ids], [new.get(i, -1) for i in ids]))
    print(f"\n{count} lines and 30 more: ARI of the old with themselves {median(scores):.3f} (at least 0.93)")


@pytest.mark.parametrize(("count",), sizes((365,), (1000,), (3000,)))
def test_old_lines_after_a_quarter_more(count):
    """A fresh start: how many of the lines in a theme stay there, and what that costs in agreement with labels."""
    kept, scores = [], []
    for seed in range(3):
        labels, texts = drawn(LINES, round(1.26 * count) + 1, seed)
        all_lines = [ThemeLine(str(i), text, NIGHT) for i, text in enumerate(texts)]
        before = rebuild(all_lines[:count])
        found = [rebuild(all_lines, before), rebuild(all_lines)]
        old, new, anew = ({line: t.id for t in one.themes for line, _ in t.members} for one in (before, *found))
        kept.append(sum(new.get(line) == theme for line, theme in old.items()) / len(old))
        scores.append([adjusted_mutual_info_score(labels, [of.get(line.id, -1) for line in all_lines]) for of in (new, anew)])
    told = [sum(of) / len(of) for of in zip(*scores, strict=True)]
    print(
        f"\n{count} lines and a quarter more: {median(kept):.3f} of those in a theme stay (at least 0.95); "
        f"AMI {told[0]:.3f}, without what was before {told[1]:.3f}"
    )


def agreement(found, wished, but):
    """Precision, recall and their harmonic mean among the lines that nobody was asked about."""
    found, wished = found - but, wished - but
    both = len(found & wished)
    precision, recall = both / max(1, len(found)), both / max(1, len(wished))
    return precision, recall, 2 * precision * recall / max(1e-9, precision + recall)


@pytest.mark.parametrize(("count", "times", "least", "aim"), sizes((365, 2, 0.63, 0.70), (1000, 2, 0.63, 0.70)))
def test_a_theme_begun_by_three_lines_and_asked_about_ten(count, times, least, aim):
    before, after = [], []
    for seed in range(times):
        labels, texts = drawn(LINES, count, seed)
        lines = [ThemeLine(str(i), text, NIGHT) for i, text in enumerate(texts)]
        found = rebuild(lines)
        for label in sorted(set(labels)):
            its = {str(i) for i, one in enumerate(labels) if one == label}
            if len(its) < 15:
                continue
            begin = Begin(found.next_number, label, tuple(random.Random(seed).sample(sorted(its), 3)))
            first = redraw(found, lines, decisions=[begin])
            asked = first.unsure[begin.theme][:10]
            answered = replace(begin, yes=tuple(x for x in asked if x in its), no=tuple(x for x in asked if x not in its))
            second = redraw(found, lines, decisions=[answered])
            for told, themes in ((before, first), (after, second)):
                members = {line for theme in themes.themes if theme.id == begin.theme for line, _ in theme.members}
                told.append(agreement(members, its, {*begin.lines, *asked}))
    told = ["/".join(f"{sum(one) / len(one):.2f}" for one in zip(*part, strict=True)) for part in (before, after)]
    print(f"\n{count} lines, a theme begun by three: precision/recall/F {told[0]}, after ten answers {told[1]}{reached(least, aim)}")
