"""The rules: conditions and layers in plain Python, one engine behind one door, and the record of what fired."""
