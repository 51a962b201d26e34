"""What becomes of cases: later looks, what is due, the garden as one. Engines only: no file, no clock."""
