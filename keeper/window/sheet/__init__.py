"""Paper: a span of nights typed up like a ruled page, and the notebook beside it."""
