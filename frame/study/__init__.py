"""Bracings compared, governing cases found, the verdict reached."""
