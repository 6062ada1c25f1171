"""Which readings are noted each night: a page of their own."""
