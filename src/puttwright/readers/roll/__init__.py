"""A putt out of a phone's video: the clip, the ball in it, its way, its turning."""
