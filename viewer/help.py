"""The window's keys in words, and the few figures by which it behaves."""

from __future__ import annotations

from viewer.cards import Rows

HINT = "h: help   q: close"
HELP: Rows = (
    ("1 to 7", "build stage: walls, tie beam, anchors, trusses, deck, covering, finished"),
    ("page up, page down", "next and earlier stage"),
    ("p", "play the stages, or stop"),
    ("c", "next colouring"),
    ("v", "next standard view"),
    ("n, b", "next and earlier bearing, with its card"),
    ("t, r", "next and earlier member, with its card"),
    ("k", "look closer: the bearing cut open, its pull beside what is allowed; k again: the house"),
    ("f", "the figures of a bearing's card, shown or folded"),
    ("click", "card of the bearing or member under the pointer"),
    ("w", "wind on and off: suction arrows, and what reaches its allowed pull"),
    ("[ and ]", "less and more wind; or click its scale"),
    ("m", "measure: click two points; m again puts it away"),
    ("x", "section cut: off, across W1, along W1"),
    ("comma, period", "move the cut"),
    ("l", "labels on and off"),
    ("arrows, drag", "turn the model"),
    ("plus, minus, wheel", "nearer and farther"),
    ("s", "save what you see as a picture in this folder"),
    ("escape", "put the card, the measure or this help away"),
    ("h", "this help"),
    ("q", "close the window"),
)
NEAR_PX = 14.0
TURN_DEG = 7.5
NEARER_RATIO = 0.88
LEAST_MPH, MOST_MPH, STEP_MPH = 80.0, 300.0, 5.0
"""The ends of the wind's scale; the schedule itself is reckoned up to the higher one."""
