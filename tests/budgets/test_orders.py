"""Bills settle orders: deposits are never counted twice, changes and refunds keep the books."""

from __future__ import annotations

from datetime import date

import pytest

from budgets import fit
from budgets.models import Expense
from budgets.selectors.lines import line_rows, orders_of
from budgets.selectors.orders import order_account, sentence
from projects.models import LogEntry
from suppliers.models import Order, OrderChange, OrderState
from tests.budgets.factories import credit, expense, line, order, photo, url
from tests.factories import TODAY

pytestmark = pytest.mark.django_db


@pytest.fixture
def skin(project):
    """$2,650 at Third Bell: half with the order, the rest 15 days after the delivery."""
    pays = line(project, "Sewn skin", category="fabrication", planned_cents=300_000)
    return order(
        project, 265_000, paid_from=pays, supplier="Third Bell Canvas Loft", net_days=15,
        deposit_basis_points=5000, placed_on=TODAY, window_end=date(2031, 5, 1),
    )  # fmt: skip


def state_of(skin):
    return order_account(Order.objects.select_related("supplier__project").get(pk=skin.pk), TODAY)


def bill(client, skin, **typed):
    facts = {"day": "2031-03-03", "line": skin.commitment.line_id, "cents": "1,325.00", **typed}
    return client.post(url("order-bill", skin.supplier.project, skin.pk), facts)


def log(client, skin):
    """What is filled in, sent as it is."""
    form = client.get(url("order-bill", skin.supplier.project, skin.pk)).context["opened"].form
    typed = {f.html_name: f.value() for f in form if f.value() not in (None, False)}
    answer = client.post(
        url("order-bill", skin.supplier.project, skin.pk),
        {k: v.isoformat() if isinstance(v, date) else v for k, v in typed.items()}
        | {"cents": form["cents"].field.prepare_value(form["cents"].value())},
    )
    assert answer.status_code == 302, answer.content.decode()
    return answer


def left_of(project) -> tuple[int, int]:
    """Committed and spent on the order's line."""
    books = fit.read(project)
    lines = [skin.commitment.line for skin in Order.objects.filter(supplier__project=project)]
    row = line_rows(lines, orders_of(project), books)[0].state
    return row.committed, row.spent


def test_deposits_never_counted_twice(owner, project, skin):
    """Before, between and after the two bills: committed and spent add up to the price."""
    assert left_of(project) == (265_000, 0)
    log(owner, skin)
    assert Expense.objects.get().is_deposit
    assert left_of(project) == (132_500, 132_500)
    log(owner, skin)
    assert left_of(project) == (0, 265_000)
    assert [e.cents for e in Expense.objects.order_by("pk")] == [132_500, 132_500]


def test_a_bill_is_filled_in_with_what_is_due(owner, skin):
    form = owner.get(url("order-bill", skin.supplier.project, skin.pk)).context["opened"].form
    assert (form["cents"].value(), form["is_deposit"].value()) == ("1325", True)
    assert form["due_on"].value() == TODAY


def test_a_bill_comes_with_its_paper_and_settles_its_order(owner, project, skin):
    bill(owner, skin, photo=photo(), invoice_no="77", paid_on="2031-03-03", is_deposit="on")
    made = Expense.objects.get()
    assert (made.order, made.supplier, made.payee) == (skin, skin.supplier, skin.supplier.name)
    assert (made.invoice_no, made.papers.count()) == ("77", 1)
    found = state_of(skin).account
    assert (found.paid, found.deposit, found.to_bill) == (132_500, 132_500, 132_500)


def test_retainage_is_kept_from_the_rest_and_paid_out_last(owner, project, skin):
    skin.retainage_basis_points = 1000
    skin.save()
    log(owner, skin)
    log(owner, skin)
    found = state_of(skin)
    assert (found.account.retained, found.account.to_bill) == (13_250, 0)
    assert left_of(project) == (13_250, 251_750)
    log(owner, skin)
    assert state_of(skin).account.to_bill == 0
    assert left_of(project) == (0, 265_000)
    assert state_of(skin).next is None


def test_a_bill_above_the_contract_is_asked_about(owner, skin):
    answer = bill(owner, skin, cents="3,000")
    shown = answer.content.decode()
    assert answer.status_code == 422
    assert "That is $350 more than the $2,650 which is not billed yet." in shown
    assert "3,000" in shown
    bill(owner, skin, cents="3,000", anyway="on")
    found = state_of(skin)
    assert sentence(found) == (
        "The bills come to $3,000, $350 more than the $2,650 agreed. "
        "Log the change that was agreed, or have the bill put right."
    )


def test_a_last_bill_that_forgot_the_deposit_is_named(owner, project, skin):
    log(owner, skin)
    bill(owner, skin, cents="2,650", anyway="on")
    assert "did not take off the deposit: it is counted twice" in sentence(state_of(skin))
    shown = owner.get(url("quotes", project)).content.decode()
    assert "it is counted twice" in shown


def test_the_same_bill_twice_is_asked_about(owner, skin):
    bill(owner, skin, cents="500")
    answer = bill(owner, skin, cents="500")
    assert answer.status_code == 422
    assert "A bill of $500 of Mon 3 Mar is logged already." in answer.content.decode()
    bill(owner, skin, cents="500", anyway="on")
    assert Expense.objects.count() == 2


def test_a_receipt_twice_is_asked_about(owner, project, skin):
    """The same bytes with another expense; or the same payee, day and amount beside the order."""
    bill(owner, skin, cents="500", photo=photo())
    answer = bill(owner, skin, cents="400", photo=photo())
    assert "This very paper is kept with another expense." in answer.content.decode()
    expense(project, 30_000, payee=skin.supplier.name, day=TODAY)
    answer = bill(owner, skin, cents="300")
    assert "is logged without an order. Tie it to this order instead" in answer.content.decode()
    assert Expense.objects.filter(order=skin).count() == 1


@pytest.mark.parametrize(
    ("typed", "right"),
    [
        ({"cents": "-20"}, "below zero"),
        ({"cents": ""}, "Write an amount"),
        ({"day": "2031-03-04"}, "has not come yet"),
        ({"paid_on": "2031-03-04"}, "has not come yet"),
        ({"line": "0"}, "not in the list"),
    ],
)
def test_a_wrong_bill_says_what_would_be_right(owner, skin, typed, right):
    answer = bill(owner, skin, invoice_no="A-77", **typed)
    shown = answer.content.decode()
    assert answer.status_code == 422 and right in shown and "A-77" in shown
    assert not Expense.objects.exists()


def test_more_than_is_kept_back_is_not_paid_out(owner, project, skin):
    expense(project, 90_000, order=skin, retained_cents=10_000)
    answer = bill(owner, skin, cents="200", release="on")
    assert "Only $100 is kept back" in answer.content.decode()
    bill(owner, skin, cents="100", release="on")
    found = state_of(skin).account
    assert (found.retained, found.billed) == (0, 100_000)


def test_an_agreed_change_is_logged_with_its_reason(owner, project, skin):
    where = url("order-change", project, skin.pk)
    typed = {"way": "up", "cents": "65", "day": "2031-03-03", "reason": "A second lug on each post"}
    owner.post(where, typed)
    assert state_of(skin).account.total == 271_500
    assert left_of(project) == (271_500, 0)
    entry = LogEntry.objects.latest("pk")
    assert entry.sentence.endswith("goes up by $65, to $2,715.")
    assert entry.reason == "A second lug on each post"
    answer = owner.post(where, {**typed, "way": "down", "cents": "9,000"})
    assert "it cannot go down by more" in answer.content.decode()
    change = OrderChange.objects.get()
    owner.post(url("order-unchange", project, skin.pk, change.pk))
    assert state_of(skin).account.total == 265_000


def test_a_refund_lowers_the_same_line_and_reopens_nothing(project, skin):
    paid = expense(
        project, 265_000, order=skin, line=skin.commitment.line, paid_on=date(2031, 3, 1)
    )
    credit(paid, 15_000)
    found = state_of(skin).account
    assert (found.paid, found.came_back, found.to_bill) == (250_000, 15_000, 0)
    assert left_of(project) == (0, 250_000)


def test_a_cancelled_order_with_a_deposit_says_what_is_lost(owner, project, skin):
    expense(project, 132_500, order=skin, is_deposit=True, paid_on=date(2031, 3, 1))
    where = url("order-cancel", project, skin.pk)
    asked = owner.get(where).content.decode()
    assert "$1,325 was paid on it, $1,325 of it as deposit." in asked
    owner.post(where, {"reason": "The loft closed"})
    found = state_of(skin)
    assert found.order.state == OrderState.CANCELLED
    assert sentence(found) == "It was cancelled: the $1,325 paid on it is lost."
    assert LogEntry.objects.latest("pk").sentence.endswith("$1,325 of what was paid is lost.")
    assert left_of(project)[0] == 0


def test_a_cancelled_order_says_what_is_to_come_back_until_it_has(owner, project, skin):
    paid = expense(project, 132_500, order=skin, is_deposit=True, paid_on=date(2031, 3, 1))
    where = url("order-cancel", project, skin.pk)
    answer = owner.post(where, {"reason": "The loft closed", "back": "2,000"})
    assert "Only $1,325 was paid on it." in answer.content.decode()
    owner.post(where, {"reason": "The loft closed", "back": "1,000"})
    assert "$1,000 of what was paid is still to come back" in sentence(state_of(skin))
    credit(paid, 100_000, what="Deposit returned")
    assert sentence(state_of(skin)) == "It was cancelled: the $325 paid on it is lost."


def test_a_bill_on_a_cancelled_order_is_asked_about(owner, skin):
    Order.objects.update(state=OrderState.CANCELLED)
    answer = bill(owner, skin, cents="100")
    assert answer.status_code == 422 and "This order is cancelled" in answer.content.decode()


def test_money_spent_on_a_planned_order_is_named(project, skin):
    Order.objects.update(state=OrderState.PLANNED)
    expense(project, 100_000, order=skin)
    assert "only planned: mark it placed" in sentence(state_of(skin))


def test_a_gift_in_kind_pays_no_bill(project, skin):
    expense(project, 100_000, order=skin, in_kind=True)
    assert state_of(skin).account.billed == 0
    assert left_of(project)[0] == 265_000


def test_the_supplier_sheet_shows_how_each_order_stands(reader, project, skin):
    expense(project, 132_500, order=skin, is_deposit=True, paid_on=date(2031, 3, 1))
    where = f"/projects/{project.pk}/suppliers/{skin.supplier_id}/"
    shown = reader.get(where).content.decode()
    assert "Paid $1,325" in shown and "Still to pay $1,325" in shown
    assert url("order", project, skin.pk) in shown


def test_an_order_of_another_project_is_not_there(stranger, owner, project, skin):
    assert stranger.get(url("order", project, skin.pk)).status_code == 404
    assert owner.get(url("order", project, 999_999)).status_code == 404
