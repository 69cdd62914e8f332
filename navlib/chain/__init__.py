"""A question as a chain of named steps; answer, marks and diagnosis derive from it."""
