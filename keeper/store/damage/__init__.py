"""A keeper's file that is broken: what is wrong with it, what can be carved out of its bytes, and a new one made of that."""
