"""Both themes of a line, as one asks for them."""

OF_THEMES = (
    "(SELECT line_id, theme, closeness, 0 AS second FROM theme_line UNION ALL "
    "SELECT line_id, theme, closeness, 1 FROM theme_second WHERE NOT offered)"
)
"""Rows of line_id, theme, closeness and second: each line with its theme (NULL: loose), and once more with its second."""
