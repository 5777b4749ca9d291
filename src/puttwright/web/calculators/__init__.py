"""The calculators: what is asked, what is reckoned, what is drawn; the deeds are the commands'."""
