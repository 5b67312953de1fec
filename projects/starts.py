"""The starting plans: one file for each kind of piece, read once."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from typing import Any

from django.conf import settings

FOLDER = settings.ROOT / "fixtures" / "starts"


@cache
def starting_plans() -> Mapping[str, Mapping[str, Any]]:
    """The plans by their kind, in the order of their titles."""
    plans = [json.loads(path.read_text(encoding="utf-8")) for path in FOLDER.glob("*.json")]
    return {plan["kind"]: plan for plan in sorted(plans, key=lambda plan: plan["title"])}
