"""Sheets to print, set with a typesetting engine that needs no system library."""
