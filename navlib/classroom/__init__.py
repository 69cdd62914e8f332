"""The instructor's room: a session planned, run, seen and kept; the class server."""
