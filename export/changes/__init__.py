"""Two plans, runs or output folders -> what changed between them, mark by mark, for crew, builder and inspector."""
