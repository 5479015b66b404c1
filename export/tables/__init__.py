"""Run -> the tables for spreadsheets and machines: schedule, takeoff, run.json."""
