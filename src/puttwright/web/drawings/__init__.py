"""Drawings that only pages need: surfaces to tap on, and each drawing in two widths."""
