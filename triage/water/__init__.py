"""Chemistry of the water: pure functions of numbers with units; nothing here reads a file, a clock or a book."""
