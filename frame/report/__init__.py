"""Results put in words and tables; nothing is computed here."""
