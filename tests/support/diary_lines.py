"""Made-up diary lines on a few subjects, for tests of themes: the same for the same seed."""

import random
from datetime import date, timedelta

from keeper.study.themes.nouns import ThemeLine

SUBJECTS = {
    "bread": ["bread", "flour", "oven", "baked", "loaf", "dough", "rye", "butter", "kitchen", "crust", "baker", "cake", "soup"],
    "sea": ["swam", "water", "waves", "jetty", "cold", "sea", "harbour", "boat", "sail", "tide", "beach", "shore"],
    "music": ["piano", "choir", "sang", "tuned", "strings", "concert", "organ", "melody", "fiddle", "song", "hymn", "bass"],
    "garden": ["garden", "roses", "planted", "tree", "apple", "seeds", "weeds", "pruned", "hedge", "flowers", "soil", "tulips"],
    "health": ["doctor", "wrist", "sleep", "slept", "cough", "fever", "medicine", "hospital", "pain", "ached", "nurse", "bandage"],
    "reading": ["book", "novel", "library", "read", "letter", "page", "poem", "wrote", "author", "chapter", "story", "envelope"],
}
FILLING = ["again", "quiet", "long", "little", "after", "before", "with", "my", "the", "a", "we", "then", "almost", "some", "very", "today"]


def diary(count, seed=0, subjects=tuple(SUBJECTS)):
    """Lines, and the subject of each."""
    rng = random.Random(seed)
    lines, about = [], []
    for i in range(count):
        subject = rng.choice(subjects)
        chosen = rng.sample(SUBJECTS[subject], 4) + rng.sample(FILLING, 3)
        rng.shuffle(chosen)
        lines.append(ThemeLine(f"{seed}-{i}", " ".join(chosen).capitalize() + ".", date(2024, 1, 1) + timedelta(i)))
        about.append(subject)
    return lines, about


def shuffled(texts, seed=0):
    """The words of all texts dealt out anew, each text as long as before."""
    rng = random.Random(seed)
    pool = [word for text in texts for word in text.split()]
    rng.shuffle(pool)
    return [" ".join(pool.pop() for _ in text.split()) for text in texts]
