"""Patterns as they are told: sentences, and the chart of each."""
