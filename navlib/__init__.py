"""Coastal navigation for teachers and learners; each module is one room of the trade."""
