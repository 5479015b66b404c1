"""A list of straps as set -> each judged against the plan, and the mistakes that explain more than one."""
