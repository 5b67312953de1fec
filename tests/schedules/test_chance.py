"""The chance of the public date on its page, in the title block, and what would buy more."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from statistics import NormalDist

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from projects.hooks import Level
from schedules.models import ChanceResult, Lane, Task, Weather
from schedules.plan import read
from schedules.plan.chance import chance_percent, chances
from schedules.selectors.chance import draws_words, level, percent_words
from schedules.services import chance as service
from tests import factories
from tests.factories import TODAY

HTMX = {"HX-Request": "true"}
DRY_YEAR = {f"m{n}": "0" for n in range(1, 13)} | {"source": ""}


def rows_of(place):
    return read(place.project, TODAY)


def estimate(place, name, **fields):
    Task.objects.filter(pk=place.task(name).pk).update(**fields)
    ChanceResult.objects.update(basis="")


@pytest.fixture
def estimated(place):
    """Ten days of welding, then twenty of sewing, ready by Fri 11 Apr, and a walk on that day."""
    estimate(place, "Weld", low_days=8, high_days=16)
    estimate(place, "Cut", low_days=15, high_days=30)
    place.project.key_dates.update(on=date(2031, 4, 16))
    return place


@pytest.fixture
def page(ada, estimated):
    return lambda name="chance", *args: ada.get(estimated.url(name, *args)).content.decode()


def test_the_page_says_in_how_many_draws_the_date_is_made(page, estimated):
    percent = chances(rows_of(estimated)).percent
    assert 20 < percent < 80
    assert f"In {round(percent)} of 100 draws Mill Lane Lantern Walk on Wed 16 Apr" in page()


def test_a_plan_without_a_public_date_has_no_chance_but_a_way_on(ada, place):
    place.project.key_dates.all().delete()
    assert chance_percent(rows_of(place)) is None
    answer = ada.get(place.url("chance")).content.decode()
    assert "It needs a public date first" in answer and place.url("key-date-add") in answer


def test_tasks_that_nobody_estimated_are_taken_as_certain(ada, place):
    answer = ada.get(place.url("chance")).content.decode()
    assert "In every draw" in answer and "2 tasks taken as certain" in answer
    assert place.url("chance-task", place.task("Weld").pk) in answer


def test_what_carries_the_date_is_listed_with_its_range(page):
    words = re.sub(r"\s+", " ", page())
    assert "8 to 16 days, most likely 10" in words and "15 to 30 days, most likely 20" in words
    assert words.index("Weld lantern frame") and "Encroachment permit" not in words


def test_the_draws_are_kept_until_something_changes(page, estimated):
    page()
    kept = ChanceResult.objects.get()
    page()
    assert ChanceResult.objects.get().data == kept.data
    estimate(estimated, "Weld", high_days=40)
    page()
    assert ChanceResult.objects.get().percent < kept.percent


def test_the_draws_are_made_anew_on_another_day(page, estimated, settings):
    page()
    kept = ChanceResult.objects.get()
    settings.TODAY = "2031-03-10"
    page()
    assert ChanceResult.objects.get().basis != kept.basis


def test_a_figure_that_is_stale_is_fetched_after_the_page(ada, estimated):
    fresh = ada.get(estimated.url("schedule")).content.decode()
    assert f'hx-get="{estimated.url("chance-cell")}"' in fresh and "see chance" in fresh
    cell = ada.get(estimated.url("chance-cell"), headers=HTMX).content.decode()
    assert re.search(r">\d\d %</a>", cell) and "hx-get" not in cell
    assert re.search(r">\d\d %</a>", ada.get(estimated.url("schedule")).content.decode())


def test_a_change_of_the_plan_makes_the_figure_stale(ada, estimated, typed):
    ada.get(estimated.url("chance-cell"), headers=HTMX)
    task = estimated.task("Cut")
    ada.post(estimated.url("task-edit", task.pk), typed(task, days="21"))
    assert "see chance" in ada.get(estimated.url("schedule")).content.decode()


def test_a_change_while_the_draws_are_made_leaves_them_stale(estimated, monkeypatch):
    def meanwhile(rows):
        ChanceResult.objects.update(basis="")  # as a change of the plan does
        return {"percent": 50.0}

    monkeypatch.setattr("schedules.plan.odds.drawn", meanwhile)
    service.answered(rows_of(estimated))
    assert ChanceResult.objects.get().basis == ""


def test_the_cell_costs_other_pages_one_query(ada, estimated):
    place = estimated.url("calendars")
    ada.get(place)
    with CaptureQueriesContext(connection) as stale:
        ada.get(place)
    ada.get(estimated.url("chance-cell"), headers=HTMX)
    with CaptureQueriesContext(connection) as fresh:
        ada.get(place)
    asked = [q for q in fresh.captured_queries if "chanceresult" in q["sql"].lower()]
    assert len(asked) == 1 and len(fresh) == len(stale)


def test_an_event_that_is_over_has_no_cell(ada, estimated):
    estimate(estimated, "Lantern walk", finished_on=TODAY, started_on=TODAY)
    assert ada.get(estimated.url("chance-cell"), headers=HTMX).content == b""
    assert "is over" in ada.get(estimated.url("chance")).content.decode()


def test_wet_days_are_saved_with_their_source_and_lower_the_chance(ada, estimated):
    estimate(estimated, "Cut", outdoor=True)
    before = chance_percent(rows_of(estimated))
    wet = {f"m{n}": "9.5" for n in range(1, 13)} | {"source": "Station on the hill"}
    answer = ada.post(estimated.url("chance-weather"), wet, headers=HTMX).content.decode()
    assert "Source: Station on the hill" in answer
    assert Weather.objects.get().wet_days == [9.5] * 12
    assert estimated.last_log.sentence == "Set the wet days of the site: 114 in a year."
    estimated.project.refresh_from_db()
    assert chance_percent(rows_of(estimated)) < before


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"m2": "30"}, "February has 29 days: write a number from 0 to 29."),
        ({"m6": "-1"}, "June has 30 days: write a number from 0 to 30."),
        ({"m6": "often"}, "June has 30 days: write a number from 0 to 30."),
        ({"m1": ""}, "Write how many days are wet; 0 if none is."),
        ({f"m{n}": "31" for n in (1, 3, 5, 7, 8, 10, 12)} | {f"m{n}": "30" for n in (4, 6, 9, 11)}
         | {"m2": "29"}, "Leave at least one day of the year dry"),
    ],
)  # fmt: skip
def test_wrong_wet_days_are_answered_beside_their_month(ada, estimated, wrong, says):
    typed = DRY_YEAR | wrong | {"source": "My own notes"}
    answer = ada.post(estimated.url("chance-weather"), typed, headers=HTMX)
    assert answer.status_code == 422 and says in answer.content.decode()
    assert "My own notes" in answer.content.decode() and not Weather.objects.exists()


def test_an_estimate_is_saved_and_the_page_answers_with_it(ada, estimated):
    task = estimated.task("Weld")
    typed = {"low_days": "9", "high_days": "12", "returns_percent": "20", "returns_days": "3"}
    answer = ada.post(estimated.url("chance-task", task.pk), typed, headers=HTMX)
    assert "in 20 of 100 it comes back for 3 more" in answer.content.decode()
    assert "Estimated “Weld lantern frame” anew" in estimated.last_log.sentence


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"low_days": "11"}, "The plan says 10 working days. Write that many or fewer."),
        ({"high_days": "9"}, "The plan says 10 working days. Write that many or more."),
        ({"returns_percent": "20"}, "Write how many days more it then takes."),
        ({"returns_days": "2"}, "Write how often it comes back."),
        ({"returns_percent": "120"}, "Write a whole number from 0 to 100."),
        ({"crash_days": "11"}, "The plan says 10 working days. Write that many or fewer."),
        ({"crash_day_cents": "much"}, "1,200"),
    ],
)
def test_a_wrong_estimate_is_answered_beside_its_field(ada, estimated, typed, says):
    url = estimated.url("chance-task", estimated.task("Weld").pk)
    answer = ada.post(url, typed, headers=HTMX)
    assert answer.status_code == 422 and says in answer.content.decode()


def ranked(place):
    return service.ranking(rows_of(place)).data["buys"]


def test_what_buys_the_most_comes_first(estimated):
    kinds = [(row["kind"], row["percent"]) for row in ranked(estimated)]
    assert [percent for _, percent in kinds] == sorted((p for _, p in kinds), reverse=True)
    assert {"later", "second", "shorten", "saturdays"} == {kind for kind, _ in kinds}


def test_an_action_never_makes_the_date_less_likely(estimated):
    base = chances(rows_of(estimated)).percent
    assert all(row["percent"] >= base for row in ranked(estimated))


def test_a_shorter_task_costs_what_its_estimate_says(estimated):
    estimate(estimated, "Cut", crash_days=3, crash_day_cents=21_000)
    row = next(r for r in ranked(estimated) if r["kind"] == "shorten" and r["cents"])
    assert (row["task"], row["days"], row["cents"]) == (estimated.task("Cut").pk, 3, 63_000)


def test_saturdays_and_a_second_maker_cost_the_lane_by_the_day(estimated):
    Lane.objects.update(day_cents=32_000)
    rows = {r["kind"]: r for r in ranked(estimated)}
    assert rows["saturdays"]["cents"] == 32_000 * rows["saturdays"]["days"]
    assert rows["second"]["cents"] == 32_000 * rows["second"]["days"]


def test_nobody_shortens_a_review_or_shares_it(estimated):
    estimate(estimated, "Cut", waits=True)
    actions = {(r["kind"], r["task"]) for r in ranked(estimated)}
    assert (
        not {("shorten", estimated.task("Cut").pk), ("second", estimated.task("Cut").pk)} & actions
    )


def test_an_order_that_is_not_placed_can_be_placed_today(estimated):
    order = factories.OrderFactory(
        supplier=factories.SupplierFactory(project=estimated.project), state="planned"
    )
    estimate(estimated, "Weld", order=order, waits=True, not_before=date(2031, 3, 10))
    row = next(r for r in ranked(estimated) if r["kind"] == "order")
    assert (row["order"], row["task"]) == (order.pk, estimated.task("Weld").pk)


def test_a_cover_helps_only_where_it_rains(estimated):
    estimate(estimated, "Cut", outdoor=True)
    assert "cover" not in {r["kind"] for r in ranked(estimated)}
    Weather.objects.create(project=estimated.project, wet_days=[9] * 12)
    estimated.project.refresh_from_db()
    assert "cover" in {r["kind"] for r in ranked(estimated)}


def test_the_ranked_list_comes_in_a_second_request_or_as_a_page_of_its_own(ada, estimated):
    first = ada.get(estimated.url("chance")).content.decode()
    assert f'hx-get="{estimated.url("chance-buys")}"' in first and "Work it out" in first
    piece = ada.get(estimated.url("chance-buys"), headers=HTMX).content.decode()
    assert piece.lstrip().startswith("<section") and "A second maker on “Cut and sew skin”" in piece
    assert "<html" in ada.get(estimated.url("chance-buys")).content.decode()


def test_a_task_under_way_keeps_the_time_that_is_gone(estimated):
    estimate(estimated, "Weld", started_on=date(2031, 2, 24), remaining_days=Decimal(4),
             remaining_on=TODAY)  # fmt: skip
    row = next(r for r in ranked(estimated)
               if r["kind"] == "second" and r["task"] == estimated.task("Weld").pk)  # fmt: skip
    assert row["days"] == 2


def test_weather_that_never_ends_is_told_and_breaks_nothing(ada, estimated):
    estimate(estimated, "Cut", outdoor=True)
    Weather.objects.create(
        project=estimated.project, wet_days=[31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
    )
    answer = ada.get(estimated.url("chance"))
    assert answer.status_code == 200 and "Look at the wet days" in answer.content.decode()
    assert ada.get(estimated.url("chance-cell"), headers=HTMX).status_code == 204


def test_the_classic_formula_is_given_beside_and_called_too_hopeful(ada, estimated):
    """Own arithmetic: 2 days of room, 1.5 days longer expected, variances 1.78 and 6.25."""
    single = service.answered(rows_of(estimated)).data["single"]
    assert single == pytest.approx(100 * NormalDist().cdf(0.5 / (64 / 36 + 6.25) ** 0.5))
    estimate(estimated, "Encroachment", days=29, low_days=20, high_days=40)
    walk = estimated.task("Lantern walk")
    factories.LinkFactory(before=estimated.task("Encroachment"), after=walk)
    answer = ada.get(estimated.url("chance")).content.decode()
    assert "too hopeful" in answer


def test_what_has_no_length_cannot_come_back(ada, estimated):
    url = estimated.url("chance-task", estimated.task("Lantern walk").pk)
    answer = ada.post(url, {"returns_percent": "20", "returns_days": "2"}, headers=HTMX)
    assert answer.status_code == 422 and "cannot come back" in answer.content.decode()


def test_figures_in_words_are_never_all_or_nothing_unless_they_are():
    assert [draws_words(n) for n in (0, 0.4, 82.4, 99.7, 100)] == [
        "no draw", "under 1 of 100 draws", "82 of 100 draws", "over 99 of 100 draws", "every draw",
    ]  # fmt: skip
    assert percent_words(0.2) == "under 1 %"
    assert [level(n) for n in (80, 79.9, 49.9)] == [Level.HOLDS, Level.NEAR, Level.BROKEN]


def test_the_public_date_keeps_its_day_on_the_curve(page):
    """Without an hour it counts from its morning, which is the evening before to the draws."""
    assert "Public date: Wed 16 Apr" in page() and "are ready by Wed 16 Apr, half by" in page()


def test_a_reader_sees_the_page_without_its_forms(cyd, estimated):
    answer = cyd.get(estimated.url("chance")).content.decode()
    assert "Save the wet days" not in answer and "What carries the date" in answer


def test_a_project_without_three_points_is_told_where_to_begin(ada, place):
    answer = ada.get(place.url("chance")).content.decode()
    assert "Nobody has said yet" in answer and "Estimate “" in answer


def test_a_price_is_part_of_the_basis_of_the_ranking_alone(estimated):
    first = service.ranking(rows_of(estimated)).data
    Lane.objects.update(day_cents=1_000)
    second = service.ranking(rows_of(estimated)).data
    assert first["basis"] == second["basis"] and first["buys_basis"] != second["buys_basis"]
