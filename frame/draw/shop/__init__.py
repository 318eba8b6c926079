"""Pages for the shop wall: black on white, large type, nothing that a copier loses."""
