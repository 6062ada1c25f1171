"""Pure computing: plain data in, plain data out; no Qt, no SQL, no clock."""
