"""How much to add: one question about one addition, from typed words to a report."""
