"""From few readings to a posterior: model, sampler, diagnostics. Knows arrays, not golf."""
