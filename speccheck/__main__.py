"""`python -m speccheck` is the command `speccheck`."""

from speccheck.cli import main

main()
