"""puttwright: fit a putter to a golfer, from readings to a build order."""

__version__ = "0.1.0"
