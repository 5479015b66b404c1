"""Plan file -> Plan. `read_plan` is the one way in, `read_options` the way to its variants."""

from framing.plan_file.reading import plan_from_text, read_options, read_plan

__all__ = ["plan_from_text", "read_options", "read_plan"]
