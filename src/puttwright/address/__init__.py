"""The golfer at address: laser and board, and in time the body over the ball."""
