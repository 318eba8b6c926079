"""Which stick gives which piece: cuts with their kerf, splices only where they may be."""
