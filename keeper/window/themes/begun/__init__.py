"""Themes that the person begins: by lines or words, and by answers."""
