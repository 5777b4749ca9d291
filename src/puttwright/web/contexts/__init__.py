"""What each page shows, as a frozen record made from a fitting: every sentence and figure."""
