"""Any table of readings: opened whatever it is written in, its columns known by their meaning."""
