"""An object of a project for every parameter that an address may have."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from typing import Any

import pytest
from django.core.files.base import ContentFile

from budgets import models as budgets
from packets import models as packets
from projects import models as projects
from schedules import models as schedules
from suppliers import models as suppliers
from tests import factories
from tests.site.addresses import Address
from worksheets import models as worksheets

DAY = date(2031, 6, 14)


def a_file(name: str = "file.jpg") -> ContentFile[bytes]:
    return ContentFile(b"kept", name)


@dataclass
class Cast:
    """Objects of one project, each made when an address first asks for it."""

    project: projects.Project
    made: dict[str, Any] = field(default_factory=dict)

    def __getitem__(self, key: str) -> Any:
        if key not in self.made:
            if key not in MAKERS:
                pytest.fail(
                    f"No object for “{key}” in an address: add a maker to tests/site/cast.py."
                )
            self.made[key] = MAKERS[key](self)
        return self.made[key]

    def value(self, folder: str, name: str) -> Any:
        """``pk`` is told apart by the folder before it: ``funds.pk``."""
        found = self[f"{folder}.pk" if name == "pk" else name]
        return getattr(found, "pk", found)

    def path(self, address: Address) -> str:
        return filled(address, [self.value(*param) for param in address.params])

    def strays(self, address: Address, other: Cast) -> set[str]:
        """The address with one of its objects, or all, taken from the other project."""
        own = [self.value(*param) for param in address.params]
        theirs = [other.value(*param) for param in address.params]
        mixed = [[*own[:n], theirs[n], *own[n + 1 :]] for n in range(1, len(own))]
        mixed.append(own[:1] + theirs[1:])
        return {filled(address, values) for values in mixed} - {self.path(address)}


def filled(address: Address, values: list[Any]) -> str:
    left = iter(values)
    return "/" + re.sub(r"<[^>]+>", lambda _: str(next(left)), address.route)


def link(cast: Cast) -> Any:
    after = factories.TaskFactory(project=cast.project, name="Cut and sew skin")
    return factories.LinkFactory(before=cast["task_id"], after=after)


def stage(cast: Cast) -> Any:
    return cast["part_id"].stages.create(name="make", position=0)


def picture(cast: Cast) -> Any:
    return projects.Picture.objects.create(
        project=cast.project, file=a_file(), caption="Pier", alt="A brick pier",
        width=60, height=40, size=4,
    )  # fmt: skip


def document(cast: Cast) -> Any:
    return suppliers.Document.objects.create(
        supplier=cast["suppliers.pk"], title="Insurance", file=a_file(), expires_on=DAY
    )


def paper(cast: Cast) -> Any:
    return budgets.Paper.objects.create(
        expense=cast["expenses.pk"], file=a_file(), media_type="image/jpeg", size=4, sha256="0"
    )


def credit(cast: Cast) -> Any:
    return budgets.Credit.objects.create(
        expense=cast["expenses.pk"], cents=5, day=DAY, what="Tin returned"
    )


def draw(cast: Cast) -> Any:
    pool = factories.LineFactory(project=cast.project, name="Kept", category="contingency")
    return budgets.Draw.objects.create(
        project=cast.project, source=pool, target=cast["lines.pk"], cents=5, day=DAY, reason="Lug"
    )


def ask(cast: Cast) -> Any:
    return packets.Ask.objects.create(packet=cast["packet_id"], title="Concept", section="concept")


def revision(cast: Cast) -> Any:
    return packets.Revision.objects.create(
        packet=cast["packet_id"], letter="A", made_by="ada", file=a_file("a.pdf"), size=4,
        pages=1, sha256="0", sources={}, day=factories.TODAY,
    )  # fmt: skip


def packet(cast: Cast) -> Any:
    return packets.Packet.objects.create(project=cast.project, kind="proposal", title="Proposal")


def worksheet(cast: Cast) -> Any:
    found = worksheets.Worksheet.objects.create(
        project=cast.project, sheet="planters", title="Fern troughs"
    )
    worksheets.Run.objects.create(worksheet=found, number=1, who="ada", says="Two to fill.")
    return found


def order(cast: Cast) -> Any:
    return factories.OrderFactory(supplier=cast["suppliers.pk"])


def calendar(cast: Cast) -> Any:
    return schedules.Calendar.objects.create(project=cast.project, name="Canvas loft")


def exception(cast: Cast) -> Any:
    return schedules.DayException.objects.create(calendar=cast["calendar_id"], day=DAY)


def applied(cast: Cast) -> Any:
    return schedules.AppliedSlip.objects.create(
        project=cast.project, on=factories.TODAY, who="ada", sentence="“Walk” moves: late."
    )


def notice(cast: Cast) -> Any:
    return schedules.Notice.objects.create(
        project=cast.project, slip=cast["slip_id"], party="Millrace Lift Hire", subject="New days"
    )


def hire(cast: Cast) -> Any:
    fields = {"project": cast.project, "name": "Platform lift hire", "lane": cast["lane_id"]}
    found = schedules.Hammock.objects.create(**fields)
    found.from_tasks.add(cast["task_id"])
    found.to_tasks.add(cast["task_id"])
    return found


def member(cast: Cast) -> Any:
    return projects.Membership.objects.create(
        project=cast.project, user=factories.user("fay"), role="reader"
    )


def of(maker: Any, **fields: Any) -> Callable[[Cast], Any]:
    return lambda cast: maker(project=cast.project, **fields)


def bank_file(cast: Cast) -> Any:
    text = "Date,Payee,Amount\n2031-02-03,Weir Bakery,-12.40\n"
    return budgets.BankFile.objects.create(
        project=cast.project, name="March.csv", text=text, sha256="0"
    )


def claim(cast: Cast) -> Any:
    return budgets.Claim.objects.create(fund=cast["funds.pk"], number=1, to_day=DAY)


def claim_share(cast: Cast) -> Any:
    return budgets.ClaimShare.objects.create(
        claim=cast["claims.pk"], expense=cast["expenses.pk"], cents=100
    )


def income(cast: Cast) -> Any:
    return budgets.Income.objects.create(fund=cast["funds.pk"], day=DAY, cents=100)


def milestone(cast: Cast) -> Any:
    return budgets.Milestone.objects.create(
        fund=cast["funds.pk"], title="Half at the walk", cents=100, on=DAY
    )


def fact(cast: Cast) -> Any:
    return budgets.DatedFact.objects.create(
        project=cast.project, name="mile_business", value="0.8", valid_from=DAY, source="Notice"
    )


def change_request(cast: Cast) -> Any:
    return budgets.ChangeRequest.objects.create(
        fund=cast["funds.pk"], revised={"materials": 100}, reason="Paint costs more."
    )


def rule(cast: Cast) -> Any:
    return budgets.FundRule.objects.create(fund=cast["funds.pk"], code="cash_only")


def request(cast: Cast) -> Any:
    return suppliers.QuoteRequest.objects.create(
        project=cast.project, title="Lantern skin", what="Six panels, felled seams."
    )


def quote(cast: Cast) -> Any:
    return suppliers.Quote.objects.create(
        request=cast["quotes.pk"], supplier=cast["suppliers.pk"], state="received", cents=265_000,
        file=a_file(), media_type="image/jpeg",
    )  # fmt: skip


def change(cast: Cast) -> Any:
    return suppliers.OrderChange.objects.create(
        order=cast["orders.pk"], cents=6_500, day=factories.TODAY, reason="A second lug"
    )


def accepted_fit(cast: Cast) -> Any:
    return budgets.AcceptedFit.objects.create(
        project=cast.project, on=factories.TODAY, who="ada", sentence="Accepted the best fit."
    )


MAKERS: dict[str, Callable[[Cast], Any]] = {
    "project_id": lambda cast: cast.project,
    "membership_id": member,
    "picture_id": picture,
    "part_id": of(factories.PartFactory),
    "stage_id": stage,
    "task_id": of(factories.TaskFactory, name="Weld lantern frame"),
    "link_id": link,
    "hire_id": hire,
    "lane_id": of(factories.LaneFactory, name="Saltglaze Metalworks"),
    "key_date_id": of(factories.KeyDateFactory, name="Hearing", kind="other"),
    "calendar_id": calendar,
    "exception_id": exception,
    "feed_id": of(schedules.Feed.objects.create),
    "slip_id": applied,
    "notice_id": notice,
    "bank.pk": bank_file,
    "best.pk": accepted_fit,
    "claims.pk": claim,
    "claim_share_id": claim_share,
    "income_id": income,
    "milestone_id": milestone,
    "facts.pk": fact,
    "changes.pk": change_request,
    "suppliers.pk": of(factories.SupplierFactory),
    "supplier_id": lambda cast: cast["suppliers.pk"],
    "document_id": document,
    "order_id": order,
    "orders.pk": order,
    "change_id": change,
    "quotes.pk": request,
    "quote_id": quote,
    "lines.pk": of(factories.LineFactory),
    "funds.pk": of(factories.FundFactory),
    "rule_id": rule,
    "kind": lambda cast: "cash_only",
    "expenses.pk": of(factories.ExpenseFactory),
    "paper_id": paper,
    "credit_id": credit,
    "draw_id": draw,
    "packet_id": packet,
    "packets.pk": lambda cast: cast["packet_id"],
    "ask_id": ask,
    "ask_pk": lambda cast: cast["ask_id"],
    "revision_id": revision,
    "letter": lambda cast: cast["revision_id"].letter,
    "topic": lambda cast: "concept",
    "worksheet_id": worksheet,
    "sheet": lambda cast: "planters",
    "number": lambda cast: cast["worksheet_id"].runs.get().number,
    "name": lambda cast: "figures.csv",
    "key": lambda cast: "soil",
}
