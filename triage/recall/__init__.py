"""Saved cases taken up again: journal and session on one side, follow-up on the other."""
