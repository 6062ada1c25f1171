"""The command line: plain verbs for people who live in a terminal, and for scripts."""
