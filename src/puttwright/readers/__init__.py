"""Files to evidence: the fitting package."""
