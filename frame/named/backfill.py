"""What the hole round a post is filled with, by the words of the rack file."""

CONCRETE, EARTH, GRAVEL = "concrete", "earth", "gravel"
BACKFILLS = (CONCRETE, EARTH, GRAVEL)
"""Earth is what was dug out, tamped back in layers."""
