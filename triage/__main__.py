"""`python -m triage`."""

from .cli import main

main()
