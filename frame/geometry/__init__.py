"""Shapes and directions: no loads, no strengths."""
