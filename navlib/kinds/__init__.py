"""Kinds of answer: how each is written, read, rounded and compared."""
