"""The plan of a session: an order of segments, its file, its form, and what is printed for it."""
