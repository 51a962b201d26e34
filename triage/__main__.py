"""`python -m triage`."""

from .cli import run

run()
