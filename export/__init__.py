"""Everything that leaves the program - file, table, picture, window - leaves from here."""
