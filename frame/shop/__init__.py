"""From the answer to the steel: pieces, marks and numbers for the shop, no pages."""
