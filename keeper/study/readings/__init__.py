"""Sums over readings: where two of them cross, and how a span of nights was."""
