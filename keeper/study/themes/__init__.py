"""Themes: what keeps coming back, told by the lines themselves."""
