"""What acts on the rack: weights, wind and how they are combined."""
