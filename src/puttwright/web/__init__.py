"""The pages: what a fitter and a client see in a browser on this machine."""
