"""What a pattern of putts is worth: chance to hole, expected putts, putts a round."""
