"""Plant-symptom and pest triage for growers whose water fish live in."""

__version__ = "0.1.0"
