"""Places: where one has been, merging and mending, towns."""
