"""From a question's description of what is shown beside it to a drawn sheet or page, kept."""
