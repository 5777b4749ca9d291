"""Invented golfers with a known truth: for the demo, for practice, and to keep us honest."""
