"""Call -> answer: one command of the command line a file, each of which parses, calls and prints."""
