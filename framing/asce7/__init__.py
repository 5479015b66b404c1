"""ASCE 7 clause by clause: one file per chapter, one function per clause, tables as data files beside them."""
