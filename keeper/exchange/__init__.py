"""Pure translation in and out of open standards; knows no keeper, no page and no window."""
