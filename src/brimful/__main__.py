"""`python -m brimful` is the same as `brimful`."""

from brimful.cli import main

main()
