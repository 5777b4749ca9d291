"""Many fittings at once: does what we claim come true."""
