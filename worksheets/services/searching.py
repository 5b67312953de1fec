"""The longer search for a kept worksheet: beside the page, in a thread, with a heartbeat.

What it is doing stands in the worksheet itself, so that any process can tell, and so that a search
that died with its server shows as stopped.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from threading import Thread
from typing import Any
from uuid import uuid4

from django.db import connection, transaction
from django.utils import timezone

from projects.access import type_user
from projects.log import short_name
from worksheets import run
from worksheets.engine.result import Result
from worksheets.models import Run, Worksheet
from worksheets.run import Worked
from worksheets.services.saving import note
from worksheets.sheets import sheets

BEAT = timedelta(seconds=30)  # without a sign of life for so long, it has stopped
EVERY = timedelta(seconds=0.5)  # between two signs of life
WHY = "A longer search."
FAILED = "The search broke off. The result stands as it was; you may start it again."
log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """``state`` is “running”, “done”, “stopped”, “failed” or empty when there was none."""

    state: str
    share: float
    says: str

    @property
    def running(self) -> bool:
        return self.state == "running"

    @property
    def percent(self) -> int:
        return round(self.share * 100)


def progress(worksheet: Worksheet) -> Progress:
    """How far a search has come, if one is or was going on."""
    kept = worksheet.searching or {}
    state = kept.get("state", "")
    if state == "running" and timezone.now() - datetime.fromisoformat(kept["at"]) > BEAT:
        state = "stopped"
    return Progress(state=state, share=kept.get("share", 0.0), says=kept.get("says", ""))


def in_thread(work: Callable[[], None]) -> None:
    Thread(target=work, daemon=True).start()


def start(
    *,
    worksheet: Worksheet,
    user: type_user | None,
    launch: Callable[[Callable[[], None]], None] | None = None,
) -> bool:
    """Begin a search, unless one is going on for this worksheet or its sheet has none."""
    sheet = sheets().get(worksheet.sheet)
    if sheet is None or sheet.improve is None:
        return False
    token = uuid4().hex
    with transaction.atomic():
        locked = Worksheet.objects.select_for_update().get(pk=worksheet.pk)
        if progress(locked).running:
            return False
        beat(locked.pk, None, token, 0.0, "")
        version = locked.version
    job = Job(worksheet.pk, token, version, short_name(user), user)
    transaction.on_commit(lambda: (launch or in_thread)(job.run))
    return True


def beat(
    pk: int, holds: str | None, token: str, share: float, says: str, state: str = "running"
) -> bool:
    """Write a sign of life; False when the search of the token ``holds`` is no longer the one."""
    rows = Worksheet.objects.filter(pk=pk)
    if holds is not None:
        rows = rows.filter(searching__token=holds)
    told = {
        "state": state,
        "share": round(share, 3),
        "says": says[:300],
        "at": timezone.now().isoformat(),
        "token": token,
    }
    return bool(rows.update(searching=told))


@dataclass(slots=True)
class Job:
    pk: int
    token: str
    version: int
    who: str
    user: type_user | None
    last: datetime | None = None

    def run(self) -> None:
        """In its own thread: it owns its connection to the database and gives it back."""
        alone = not connection.in_atomic_block
        try:
            self.look()
        except Exception:
            log.exception("The search for worksheet %s broke off", self.pk)
            beat(self.pk, self.token, self.token, 1.0, FAILED, "failed")
        finally:
            if alone:
                connection.close()

    def look(self) -> None:
        worksheet = Worksheet.objects.select_related("project", "part").get(pk=self.pk)
        worked = run.work_saved(worksheet)
        improve = worked.sheet.improve
        if worked.result is None or improve is None:
            beat(self.pk, self.token, self.token, 1.0, worked.problem, "stopped")
            return
        found = improve(worked.reading.given, self.hear)
        self.keep(replace(worked, result=found))

    def hear(self, share: float, best: Result) -> bool:
        """Every half second a sign of life; stop when the worksheet has moved on."""
        now = timezone.now()
        if self.last is not None and now - self.last < EVERY:
            return True
        self.last = now
        return beat(self.pk, self.token, self.token, min(share, 0.99), best.says)

    @transaction.atomic
    def keep(self, worked: Worked) -> None:
        """Keep the best as a new version; nothing when the inputs have changed meanwhile."""
        rows = Worksheet.objects.select_for_update(of=("self",)).select_related("project", "part")
        worksheet = rows.filter(pk=self.pk, searching__token=self.token).first()
        if worksheet is None:
            return
        if worksheet.version != self.version:
            says = "The inputs were changed meanwhile. Start it again."
            beat(self.pk, self.token, self.token, 1.0, says, "stopped")
            return
        says = self.written(worksheet, run.last_run(worksheet), worked)
        beat(self.pk, self.token, self.token, 1.0, says, "done")

    def written(self, worksheet: Worksheet, before: Run | None, worked: Worked) -> str:
        """A new run, or with equal figures only what was found out, beside the last one."""
        result: Any = worked.result
        if before is not None and run.unchanged(before, worked):
            before.kept = dict(result.kept)
            before.save(update_fields=["kept"])
            return "The search found nothing better."
        made = run.record(worksheet, worked, who=self.who, why=WHY)
        told = run.differences(before, made)
        says = f"Searched on for “{worksheet.title}”: {'; '.join(told[:3]) or made.says}"
        note(worksheet.project, self.user, says[:400])
        return made.says
