"""The coach's room: blueprint, equal variants, printed paper, mark scheme, marking, results."""
