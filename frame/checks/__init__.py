"""One limit state a file: pure functions of numbers and arrays, with source and limits."""
