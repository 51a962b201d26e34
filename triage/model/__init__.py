"""What things are: frozen records. Nothing here reads a file, a clock or a terminal."""
