"""Which checks a part needs and with which forces; one kind of part a file."""
