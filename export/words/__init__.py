"""Run -> sentences: what people are told about marks, supports, plans and drawings, as text and as JSON."""
