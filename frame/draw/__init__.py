"""Pictures of the rack and its answers."""
