"""The JSON Schema of the plan file, for editors that complete and check it."""

from __future__ import annotations

import json
import sys

from framing.plan_file.form import PlanForm

FILE_NAME = "plan.schema.json"


def plan_schema() -> str:
    """The text of framing/plan_file/plan.schema.json, made from the form. A test fails when the file is stale."""
    return json.dumps(PlanForm.model_json_schema(by_alias=True), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":  # python -P -m framing.plan_file.schema > framing/plan_file/plan.schema.json
    sys.stdout.write(plan_schema())
