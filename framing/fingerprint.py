"""Plan + catalogue + version -> the short fingerprint that every output of one run bears."""

from __future__ import annotations

import hashlib

from framing.anchors.catalogue import Catalogue
from framing.plan import Plan

PROGRAM_VERSION = "0.1.0"
N_CHARACTERS = 10


def fingerprint(plan: Plan, catalogue: Catalogue, *others: str) -> str:
    """The first characters of a SHA-256 over every value of the plan, the hashes of catalogue and other files that the
    plan names, and the version.

    The plan is a tree of frozen records, so its representation holds every value and nothing else.
    """
    text = "\n".join((PROGRAM_VERSION, catalogue.sha256, repr(plan), *others))
    return hashlib.sha256(text.encode()).hexdigest()[:N_CHARACTERS]
