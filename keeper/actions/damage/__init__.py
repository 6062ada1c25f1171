"""A broken keeper: found out, told of, mended."""
