"""What the command line makes for paper and to send."""
