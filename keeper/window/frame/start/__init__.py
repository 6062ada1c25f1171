"""What lets one type soon: in which order the rest comes, once one can.

What is done for it, and what each gains in processor time before one can type
(medians of nine starts, offscreen, two cores): garbage is left alone until
then, by ``keeper/start.py``, 29 ms; Qt's constants stand by number in
``desk/early.py``, 20 ms; the night asks for other years only in ``rest``,
14 ms; a page is made in the part of the window where it will stand
(``desk/look.py``), 11 ms; what does without Qt is brought in before it, by
``keeper/start.py``, 8 ms. ``tests/window/frame/start/test_before_typing.py`` holds what is brought
in; ``tests/bench/test_bench_start.py`` measures the whole.
"""
