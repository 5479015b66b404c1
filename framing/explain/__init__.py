"""Run -> why: the reaction of one mark taken apart into lines that a pocket calculator adds up again."""
