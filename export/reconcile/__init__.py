"""Run under a truss package -> theirs beside ours, for engineer and builder; and an empty table to fill."""
