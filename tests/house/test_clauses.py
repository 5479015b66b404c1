"""Every clause of the standard that the program uses is tried by some test."""

from __future__ import annotations

from house.clauses import clauses, table


def test_every_clause_is_mentioned_by_a_test() -> None:
    assert [f"{clause.module.as_posix()}: {clause.function}" for clause in clauses() if not clause.tests] == []


def test_the_table_names_the_velocity_pressure_of_both_editions() -> None:
    rows = table().splitlines()
    for words in ("ASCE 7-22, sec. 26.10.2, eq. 26.10-1", "ASCE 7-16, sec. 26.10.2, eq. 26.10-1"):
        assert any(row.startswith(f"| {words}") and "`q_z_psf`" in row for row in rows)
