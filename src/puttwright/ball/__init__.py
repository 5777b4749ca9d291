"""From face to cup: impact, hop, skid, roll on a slope, and the hole."""
