"""Beyond grouping: themes that the person begins, and what lies within wide ones."""
