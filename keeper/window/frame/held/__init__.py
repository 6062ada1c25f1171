"""Which keeper the window holds: begun, locked, its one window, moved."""
