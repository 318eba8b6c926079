"""What the builder owns: frozen parts in SI units, no arrays, no solving."""
