"""Themes as rows: found, kept, decided on."""
