"""One command of the command line a file."""
