"""Colours and weights of line: quiet, and told apart in black and white by lightness and dash."""

INK = "#23282d"
FAINT = "#b4b9bd"
MOVED = "#1d4d5f"
BRACE = "#7a5a1e"
MOMENT_EDGE = "#8a3b2c"
MOMENT_FILL = "#e8d3cb"
GUY = "#5d6470"
PANEL = "#dfe6ea"
PANEL_EDGE = "#9fb0ba"
GROUND = "#8b857c"
LEADER = "#6d757c"
REST = "#c9cdd0"
FLEX = "#a3341f"
FLEX_FILL = "#f4d8cd"
WIND = "#3b6ea5"
CONCRETE = "#e6e2da"

THIN, MEDIUM, THICK = 0.6, 1.1, 1.9
"""Line widths [pt]."""
SMALL, TEXT, TITLE = 7.0, 8.0, 10.5
"""Text sizes [pt]."""
SLACK_DASH = (0, (3.5, 3.0))
"""Dash of a slack guy."""
EMBEDDED_DASH = (0, (1.2, 1.2))
"""Dash of the ground line."""
