"""Reactions + catalogue -> AnchorSchedule: the lightest anchor that holds each bearing."""
