"""The golfer at address: the body over the ball, the sole on the grass, laser and board."""
