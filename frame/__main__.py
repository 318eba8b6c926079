"""`python -m frame` is `rack`."""

from frame.cli.main import main

main()
