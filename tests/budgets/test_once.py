"""What a page looks at is read and solved once, and never stands when something has changed."""

from __future__ import annotations

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test.utils import CaptureQueriesContext

from budgets import ripples
from budgets.engine import best as optimum
from budgets.fit import books, solved
from budgets.fit.best import best
from projects.access import project_for
from schedules import plan
from tests.budgets.factories import expense, fund, share
from tests.factories import TODAY


@pytest.fixture
def solving(monkeypatch):
    """The problems that were really solved."""
    solve, found = optimum.best_fit, []
    monkeypatch.setattr(
        optimum, "best_fit", lambda problem: found.append(problem) or solve(problem)
    )
    return found


@pytest.fixture
def reading(monkeypatch):
    read, found = books.read_anew, []
    monkeypatch.setattr(books, "read_anew", lambda project: found.append(project) or read(project))
    return found


def test_equal_books_are_fitted_once(project, solving):
    fund(project, "Ward fund")
    expense(project, 20_000)
    first = best(project, TODAY)
    count = len(solving)
    again = best(project, TODAY)
    assert count > 0
    assert len(solving) == count
    assert again.fit == first.fit


def test_another_cent_is_fitted_anew(project, solving):
    ward = fund(project, "Ward fund")
    bill = expense(project, 20_000)
    assert best(project, TODAY).charged[str(ward.pk)] == 20_000
    type(bill).objects.filter(pk=bill.pk).update(cents=20_001)
    assert best(project, TODAY).charged[str(ward.pk)] == 20_001


def test_what_a_problem_worked_out_makes_no_other_problem_of_it(project):
    fund(project, "Ward fund")
    expense(project, 20_000)
    problem = best(project, TODAY).problem
    key = solved.key_of(problem)
    assert problem.sources
    assert solved.key_of(problem) == key


def test_no_more_answers_are_kept_than_there_is_room_for(project):
    ward = fund(project, "Ward fund")
    bill = expense(project, 1_00)
    for cents in range(solved.KEPT + 3):
        type(bill).objects.filter(pk=bill.pk).update(cents=1_00 + cents)
        best(project, TODAY)
    assert len(solved._answers) == solved.KEPT
    assert best(project, TODAY).charged[str(ward.pk)] == 1_00 + solved.KEPT + 2


def test_who_only_looks_reads_the_books_once(project, reading):
    looked = project_for(User.objects.get(username="cyd"), project.pk)
    assert books.read(looked) is books.read(looked)
    assert len(reading) == 1


def test_who_may_change_them_reads_the_books_anew(project, reading):
    mine = project_for(User.objects.get(username="ben"), project.pk, change=True)
    assert books.read(mine) is not books.read(mine)
    assert len(reading) == 2


def test_the_overview_reads_the_books_once(reader, project, reading):
    fund(project, "Ward fund")
    expense(project, 20_000)
    assert reader.get(f"/projects/{project.pk}/").status_code == 200
    assert len(reading) == 1


def test_the_overview_asks_the_same_questions_of_any_number_of_funds(reader, project):
    place = f"/projects/{project.pk}/"
    bought = [expense(project, 20_000) for _ in range(3)]
    share(bought[0], fund(project, "Ward fund", kind="grant"), 5_000)
    reader.get(place)
    with CaptureQueriesContext(connection) as few:
        reader.get(place)
    for n, bill in enumerate(bought):
        share(bill, fund(project, f"Fund {n}", kind="grant"), 5_000)
    with CaptureQueriesContext(connection) as many:
        page = reader.get(place).content.decode()
    assert "Fund 2" in page
    assert len(many) == len(few)


def test_a_slip_asks_the_same_questions_of_any_number_of_funds(project):
    looked = [project_for(User.objects.get(username="cyd"), project.pk) for _ in range(2)]
    days = plan.look(project, TODAY).days
    fund(project, "Ward fund", period_end=TODAY)
    with CaptureQueriesContext(connection) as few:
        ripples.money_that_waits(looked[0], days, days)
    for n in range(3):
        fund(project, f"Fund {n}", period_end=TODAY)
    with CaptureQueriesContext(connection) as many:
        ripples.money_that_waits(looked[1], days, days)
    assert len(many) == len(few)


def test_the_way_back_of_a_slip_asks_nothing_anew(project, django_assert_num_queries):
    looked = project_for(User.objects.get(username="cyd"), project.pk)
    fund(project, "Ward fund", period_end=TODAY)
    days = plan.look(looked, TODAY).days
    told = [ripples.fund_periods, ripples.late_bills, ripples.lowest_cash, ripples.quotes_that_end]
    for ask in told:
        ask(looked, days, days)
    with django_assert_num_queries(0):
        for ask in told:
            ask(looked, days, days)


def test_first_come_is_reckoned_once_for_equal_books(project, monkeypatch):
    first_come, found = optimum.first_come, []
    monkeypatch.setattr(
        optimum, "first_come", lambda problem: found.append(problem) or first_come(problem)
    )
    fund(project, "Ward fund")
    bill = expense(project, 20_000)
    assert best(project, TODAY).first == best(project, TODAY).first
    assert len(found) == 1
    type(bill).objects.filter(pk=bill.pk).update(cents=20_001)
    assert best(project, TODAY).first and len(found) == 2
