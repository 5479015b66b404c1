"""Plan file -> Plan. `read_plan` is the one way in."""

from framing.plan_file.reading import plan_from_text, read_plan

__all__ = ["plan_from_text", "read_plan"]
