"""What stands behind the coach's page: setting a paper, marking it, and what came of it; no widgets."""
