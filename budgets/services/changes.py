"""Write requests for other amounts in a fund's budget, and what became of them."""

from __future__ import annotations

from datetime import date

from django.db import transaction

from budgets.models import ChangeRequest, ChangeState, Fund
from budgets.services.lines import Who, say
from projects.words import money

Amounts = dict[str, int]


class PastThat(Exception):
    """The request has gone on meanwhile: what was asked fits its state no more."""

    def __init__(self, request: ChangeRequest) -> None:
        super().__init__(request.pk)
        self.state = request.state

    @property
    def words(self) -> str:
        now = ChangeState(self.state).label.lower()
        return f"This request is {now} already, so that can no longer be done. Look at it as it is."


@transaction.atomic
def set_agreed(*, fund: Fund, amounts: Amounts, user: Who) -> None:
    """The budget that the fund agreed to, by category; nothing is kept for an empty one."""
    fund.approved = kept(amounts)
    fund.version += 1
    fund.save(update_fields=["approved", "version"])
    total = money(sum(fund.approved.values()), fund.project.currency)
    say(fund.project, user, f"Wrote down the budget that “{fund.name}” agreed to: {total}.")


@transaction.atomic
def save_change(
    *, request: ChangeRequest, amounts: Amounts, reason: str, user: Who
) -> ChangeRequest:
    """A draft; raises PastThat once it is sent."""
    new = request.pk is None
    if not new:
        request = held(request, ChangeState.DRAFT)
    request.revised, request.reason = kept(amounts), reason
    request.save()
    verb = "Began" if new else "Changed"
    say(request.fund.project, user, f"{verb} a request to change the budget of {request.fund}.")
    return request


@transaction.atomic
def send_change(*, request: ChangeRequest, day: date, user: Who) -> None:
    """From here on it keeps the budget it started from. Raises PastThat."""
    found = held(request, ChangeState.DRAFT)
    found.before = found.fund.approved or {}
    found.state, found.sent_on = ChangeState.SENT, day
    found.save()
    say(found.fund.project, user, f"Sent a request to change the budget of {found.fund}.")


@transaction.atomic
def answer_change(*, request: ChangeRequest, agreed: bool, day: date, user: Who) -> None:
    """What the fund said; what it agreed to becomes its agreed budget. Raises PastThat."""
    found = held(request, ChangeState.SENT)
    found.state = ChangeState.AGREED if agreed else ChangeState.REFUSED
    found.answered_on = day
    found.save()
    fund = Fund.objects.select_for_update().get(pk=found.fund_id)
    if agreed:
        fund.approved = found.revised
        fund.version += 1
        fund.save(update_fields=["approved", "version"])
    verb = "agreed to" if agreed else "refused"
    say(fund.project, user, f"{fund} {verb} another budget.")


@transaction.atomic
def delete_change(*, request: ChangeRequest, user: Who) -> None:
    """Only a draft goes; what was sent stays on record. Raises PastThat."""
    found = held(request, ChangeState.DRAFT)
    say(found.fund.project, user, f"Dropped a request to change the budget of {found.fund}.")
    found.delete()


def held(request: ChangeRequest, state: ChangeState) -> ChangeRequest:
    rows = ChangeRequest.objects.select_for_update(of=("self",)).select_related("fund__project")
    found = rows.get(pk=request.pk)
    if found.state != state:
        raise PastThat(found)
    return found


def kept(amounts: Amounts) -> Amounts:
    return {key: cents for key, cents in amounts.items() if cents}
