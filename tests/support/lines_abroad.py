"""Made-up lines of a travelling piano tuner in other languages, by subject; for tests of words, names and themes."""

GERMAN = {
    "mushrooms": [
        "Mit Oma Hilde Pilze gesammelt, der Wald roch nach Erde.", "Steinpilze im Moos, ein ganzer Korb voll.",
        "Pilzsuppe mit Petersilie bei Frau Schäfer.", "Im Wald nur alte Pfifferlinge, aber die Pilze waren fest.",
        "Pilzkorb geflickt und früh in den Wald.", "Maronen und Steinpilze, dazu Brot.",
        "Die Pilzpfanne von Oma Hilde, mit Zwiebeln aus dem Garten.", "Pilze getrocknet, die ganze Küche riecht danach.",
        "Ein Pilzbuch auf dem Flohmarkt gefunden.", "Regen, also Pilzwetter, sagt Frau Schäfer.",
        "Fliegenpilze neben der Bank, wir haben sie stehen lassen.", "Pilzrisotto für alle, der Rest von gestern.",
        "Waldpilze geputzt, bis die Finger schwarz waren.",
    ],
    "pianos": [
        "Den Flügel im Rathaus gestimmt, zwei Saiten waren gerissen.", "Klavierstimmen in der Grundschule, das Klavier klemmt.",
        "Das alte Klavier der Wirtin hat neue Hämmer bekommen.", "Stimmhammer vergessen, beim Organisten geliehen.",
        "Der Flügel in Stralsund hält die Stimmung nicht.", "Klaviersaiten bestellt, die Basssaite ist gerissen.",
        "Ein Konzertflügel mit Wasserschaden, dessen Filze schimmeln.", "Klavierhocker repariert, dann den Flügel gestimmt.",
        "Stimmgabel gefunden, sie lag im Klavier.", "Hämmer gefeilt, bis das Klavier weich klang.",
        "Klavierkonzert in der Kirche, der Flügel war gut.", "Die Saiten vom Flügel gereinigt.",
    ],
    "ferries": [
        "Auf der Fähre nach Trelleborg, ruhige See.", "Die Fähre hatte Verspätung, wegen Sturm.",
        "Fährhafen im Nebel, das Schiff kam spät.", "An Deck gestanden, Wind und Möwen.",
        "Nachtfähre, kaum Schlaf, aber Sterne über dem Deck.", "Sturm auf See, die Fähre blieb im Hafen.",
        "Im Hafen Möwen gefüttert und auf das Schiff gewartet.", "Fährticket verloren, der Kapitän ließ mich mit.",
        "Das Schiff roch nach Diesel, die See war glatt.", "Hafenrundfahrt mit Jonas, viel Wind.",
        "Möwen über dem Hafen, die Fähre pünktlich.", "Segelschiff im Hafen, dem der Mast fehlte.",
    ],
    "baking": [
        "Brot gebacken, Roggen mit Kümmel.", "Roggenbrot und Butter, mehr braucht es kaum.",
        "Sauerteig angesetzt, der Ofen zog schlecht.", "Beim Bäcker Zimtschnecken, noch warm.",
        "Den Teig geknetet mit Jonas, der Ofen war heiß.", "Mehl überall, aber das Brot ging auf.",
        "Brotduft im ganzen Haus, der Bäcker winkte.", "Kuchenteig zu flüssig, trotzdem Kuchen gebacken.",
        "Brötchen vom Bäcker, Butter und Honig.", "Apfelkuchen aus dem Ofen, mit Mehl von der Mühle.",
        "Roggenmehl gekauft, Sauerteig gefüttert.", "Vollkornbrot, denen im Hafen geschenkt.",
    ],
}  # fmt: skip

GERMAN_PEOPLE = [
    "Frau Schäfer brachte Suppe.", "Tee bei Frau Schäfer.", "Der Garten von Frau Schäfer blüht.",
    "Oma Hilde hat angerufen.", "Lange mit Oma Hilde geredet.", "Ein Brief von Oma Hilde.",
    "Jonas sagt, das Klavier klingt müde.", "Mit Jonas am Hafen.", "Jonas und ich auf der Fähre.", "Abends lachte Jonas wieder.",
    "Brot gebacken.", "Wir haben Brot gekauft.", "Das Brot war gut.", "Brot und Butter.", "Der Regen kam spät.",
    "Regen, den ganzen Weg.", "Im Regen zum Hafen.", "Klavier gespielt.", "Klavier gestimmt.", "Das Klavier steht schief.",
    "Die Fähre fuhr.", "Mit der Fähre gefahren.", "Fähre verpasst.", "Zu Weihnachten Schnee.", "An Weihnachten zu Hause.",
    "Weihnachten und ich sind Freunde.", "Vor Weihnachten lachte das Kind.",
]  # fmt: skip

JAPANESE = [
    "今日は自転車で港まで走った。", "自転車のベルが鳴らない。", "新しい自転車で古い教会へ。",
    "庭に花があって、猫もいた。", "音楽教室のピアノを調律した。", "ピアノの弦が切れていて、調律に三時間かかった。",
    "田中さんと一緒に味噌汁を飲んだ。", "田中さんが船着き場まで送ってくれた。", "夜、田中さんのピアノを弾いた。",
    "小林先生の教室は寒かった。", "小林先生にお茶をもらった。", "小林先生と合唱を聴いた。",
    "けんじくんがりんごをくれた。", "けんじくんと海をながめた。", "けんじくんの自転車を直した。",
    "店員さんが親切だった。", "店員さんに道を聞いた。", "店員さんと話した。",
]  # fmt: skip


def german_diary(rounds: int = 3) -> list[tuple[str, str]]:
    """Subject and line: thirteen nights of mushrooms, and `rounds` times twelve of each other subject."""
    return [
        (subject, f"{text} {texts[(at + step) % len(texts)]}")
        for subject, texts in GERMAN.items()
        for step in range(2, 3 if subject == "mushrooms" else 2 + rounds)
        for at, text in enumerate(texts)
    ]
