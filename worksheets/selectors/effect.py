"""What handing on would do, for each kind of hand."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from worksheets.engine.result import ToCare, ToLine, ToPart, ToRequest, ToTask
from worksheets.selectors.desk import Desk, Effect
from worksheets.selectors.effect_line import on_line
from worksheets.selectors.effect_part import on_part
from worksheets.selectors.effect_task import on_task
from worksheets.selectors.effect_words import on_care, on_request

ON: Mapping[type, Callable[[Desk, Mapping[str, Any]], Effect]] = {
    ToLine: on_line,
    ToPart: on_part,
    ToRequest: on_request,
    ToTask: on_task,
    ToCare: on_care,
}


def effect(desk: Desk, values: Mapping[str, Any]) -> Effect:
    """From the answers of the form; raises ``ScheduleError`` where a task cannot be planned so."""
    return ON[type(desk.hand)](desk, values)
