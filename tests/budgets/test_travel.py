"""Trips by the rate of their day, nights and meals by the tier, with the workings kept."""

from __future__ import annotations

import io
import json
from datetime import date

import pdfplumber
import pikepdf
import pytest

from budgets.models import DatedFact, Expense
from budgets.selectors.travel import RateBook, meal_tables
from budgets.selectors.travel_log import travel_log, travellers, trips_of
from tests.budgets.factories import claim, expense, fund, line, share, url

pytestmark = pytest.mark.django_db


def drive(at: int, day: str, miles: str, **more: str) -> dict[str, str]:
    row = {"day": day, "start": "Studio", "end": "Saltglaze Metalworks", "miles": miles}
    fields = {**row, "purpose": "Fit check", **more}
    return {f"legs-{at}-{name}": value for name, value in fields.items()}


def trip(paid_from, *drives: dict[str, str], **more: str) -> dict[str, str]:
    count = str(len(drives) + 1)
    found = {"payee": "Artist", "line": str(paid_from.pk), "legs-TOTAL_FORMS": count}
    for each in drives:
        found.update(each)
    return {**found, "legs-INITIAL_FORMS": "0", **more}


def stay(paid_from, first: str, last: str, **more) -> dict[str, object]:
    told = {"payee": "Artist", "line": str(paid_from.pk), "first": first, "last": last}
    return {**told, "place": "Fallow Weir", "purpose": "Sewing of the skin", **more}


def go(client, project, name: str, fields):
    return client.post(url(name, project), fields)


# Trips


def test_mid_year_mileage_split(partner, project):
    """IRS Announcement 2022-13: 58.5 cents to 30 June 2022, 62.5 cents from 1 July."""
    drives = drive(0, "2022-06-30", "100"), drive(1, "2022-07-01", "100")
    assert go(partner, project, "trip-add", trip(line(project), *drives)).status_code == 302
    made = Expense.objects.get()
    assert (made.cents, made.quantity_hundredths, made.unit) == (12_100, 20_000, "mile")
    assert (made.day, made.place) == (date(2022, 7, 1), "Saltglaze Metalworks")
    page = partner.get(url("expense", project, made.pk)).content.decode()
    assert "100 at $0.585 is $58.50." in page and "Announcement 2022-13" in page


def test_a_project_may_add_the_rate_of_its_own_year(partner, project):
    DatedFact.objects.create(
        project=project, name="mile_business", value="0.8", valid_from=date(2031, 1, 1),
        source="Notice 2030-9",
    )  # fmt: skip
    go(partner, project, "trip-add", trip(line(project), drive(0, "2031-03-01", "10.5")))
    assert Expense.objects.get().cents == 840


def test_a_trip_keeps_its_rate_when_the_facts_change(partner, project):
    go(partner, project, "trip-add", trip(line(project), drive(0, "2022-06-30", "100")))
    kept = Expense.objects.get().workings["rates"][0]
    assert (kept["rate"], kept["cents"]) == ("0.585", 5_850)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"legs-0-day": "2031-03-04"}, "Log a trip once it was driven."),
        ({"legs-0-miles": "0"}, "Write a number above zero"),
        ({"legs-0-miles": "12,5"}, "Write a number of at most two decimals"),
        ({"legs-0-end": ""}, "Write where it led"),
        ({"legs-0-purpose": ""}, "Write what for"),
        ({"legs-0-day": "2001-03-04"}, "No rate is known for Sun 4 Mar."),
        ({"payee": ""}, "Write who travelled"),
    ],
)
def test_a_wrong_trip_is_refused_and_nothing_typed_is_lost(partner, project, changes, sentence):
    fields = {**trip(line(project), drive(0, "2031-03-01", "18.4")), **changes}
    answer = go(partner, project, "trip-add", fields)
    page = answer.content.decode()
    assert answer.status_code == 422 and sentence in page and 'value="Studio"' in page
    assert not Expense.objects.exists()


def test_a_trip_without_a_drive_is_none(partner, project):
    assert (
        "Write at least one drive"
        in go(partner, project, "trip-add", trip(line(project))).content.decode()
    )


def test_a_trip_is_changed_drive_by_drive(partner, project):
    paint = line(project)
    go(partner, project, "trip-add", trip(paint, drive(0, "2022-06-30", "100")))
    made = Expense.objects.get()
    page = partner.get(url("trip-edit", project, made.pk)).content.decode()
    assert 'value="100"' in page
    partner.post(url("trip-edit", project, made.pk), trip(paint, drive(0, "2022-06-30", "10")))
    made.refresh_from_db()
    assert (made.cents, made.version) == (585, 2)


def test_a_second_who_changes_the_trip_sees_the_drives_of_the_first(owner, partner, project):
    paint = line(project)
    go(partner, project, "trip-add", trip(paint, drive(0, "2022-06-30", "100")))
    path = url("trip-edit", project, Expense.objects.get().pk)
    carried = {"version": "1", "was": json.dumps({"payee": "Artist"})}
    owner.post(path, trip(paint, drive(0, "2022-06-30", "10"), **carried))
    answer = partner.post(path, trip(paint, drive(0, "2022-06-30", "77"), **carried))
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "These drives are saved now" in page and 'value="77"' in page


def test_a_claimed_trip_does_not_shrink(partner, project):
    paint, ward = line(project), fund(project, "Ward")
    go(partner, project, "trip-add", trip(paint, drive(0, "2022-06-30", "100")))
    made = Expense.objects.get()
    share(made, ward, 5_850)
    claim(ward, (made, 5_850))
    fields = trip(paint, drive(0, "2022-06-30", "10"))
    answer = partner.post(url("trip-edit", project, made.pk), fields)
    assert answer.status_code == 422 and "stands in claim 1 on Ward" in answer.content.decode()
    later = trip(paint, drive(0, "2022-06-29", "100"))
    answer = partner.post(url("trip-edit", project, made.pk), later)
    assert answer.status_code == 422 and "It was Thu 30 Jun 2022" in answer.content.decode()


def test_an_amount_written_by_hand_is_doubted_beside_its_workings(partner, project):
    go(partner, project, "trip-add", trip(line(project), drive(0, "2022-06-30", "100")))
    Expense.objects.update(cents=7_000)
    page = partner.get(url("expense", project, Expense.objects.get().pk)).content.decode()
    assert "The workings come to $58.50; the amount was written as $70." in page


# Nights away


def test_two_nights_at_the_standard_rates(partner, project):
    """GSA standard rates from October 2024: 110 and 68; two nights come to 390."""
    fields = stay(line(project), "2025-11-04", "2025-11-06")
    assert go(partner, project, "stay-add", fields).status_code == 302
    made = Expense.objects.get()
    assert (made.cents, made.quantity_hundredths, made.unit) == (39_000, 200, "night")


def test_seventy_five_percent_day_minus_full_meal(partner, project):
    """41 CFR 301-11.18: tier 74 of 2024, breakfast 17 on the first day: 55.50 less 17."""
    more = {"meals": "7400", "meals_2024-05-06": ["breakfast"], "night": "0"}
    go(partner, project, "stay-add", stay(line(project), "2024-05-06", "2024-05-07", **more))
    assert Expense.objects.get().cents == 3_850 + 5_550


def test_a_journey_over_the_turn_of_rates_takes_each_days_own(partner, project):
    """Nights 107 and meals 59 to 30 September 2024, then 110 and 68."""
    go(partner, project, "stay-add", stay(line(project), "2024-09-29", "2024-10-01"))
    assert Expense.objects.get().cents == 2 * 10_700 + 4_425 + 5_900 + 5_100


def test_the_dates_are_asked_first_and_then_each_day_is_shown(partner, project):
    line(project)
    bare = partner.get(url("stay-add", project)).content.decode()
    assert "Show the days" in bare and "Breakfast" not in bare
    dates = {"first": "2031-03-01", "last": "2031-03-02"}
    page = partner.get(url("stay-add", project), dates).content.decode()
    assert page.count("Breakfast") == 2 and "three quarters of a day" in page


@pytest.mark.parametrize(
    ("first", "last", "sentence"),
    [
        ("2031-03-02", "2031-03-01", "The last day is before the first."),
        ("2029-03-02", "2031-03-01", "That is more than a year."),
        ("2001-03-02", "2001-03-03", "No rate is known for Fri 2 Mar."),
        ("2031-03-02", "2031-03-09", "Log nights away once you are back."),
        ("never", "2031-03-09", "There is no such day."),
    ],
)
def test_wrong_dates_are_refused(partner, project, first, last, sentence):
    answer = go(partner, project, "stay-add", stay(line(project), first, last))
    assert answer.status_code == 422 and sentence in answer.content.decode()
    assert not Expense.objects.exists()


def test_a_stay_is_changed_with_the_meals_it_had(partner, project):
    paint = line(project)
    more = {"meals_2025-11-05": ["lunch"]}
    go(partner, project, "stay-add", stay(paint, "2025-11-04", "2025-11-06", **more))
    made = Expense.objects.get()
    assert made.cents == 39_000 - 1_900
    page = partner.get(url("stay-edit", project, made.pk)).content.decode()
    assert page.count("checked") == 1
    partner.post(url("stay-edit", project, made.pk), stay(paint, "2025-11-04", "2025-11-06"))
    made.refresh_from_db()
    assert made.cents == 39_000


def test_other_expenses_are_no_trip_and_no_stay(partner, project):
    bill = expense(project)
    for name in ("trip-edit", "stay-edit"):
        assert partner.get(url(name, project, bill.pk)).url == url("expense", project, bill.pk)


def test_every_table_of_meals_has_its_source_and_adds_up_to_its_tiers(project):
    tables = meal_tables()
    assert all(table.source for table in tables)
    standard = [RateBook(project).on(table.start).meals for table in tables[1:]]
    assert all(standard)
    assert [meals.tier for meals in tables[-1].tiers] == [6_800, 7_400, 8_000, 8_600, 9_200]


# The travel log


def logged(client, project, **asked):
    return client.get(url("travel-log", project), asked)


def driven(client, project, *drives, **more):
    go(client, project, "trip-add", trip(line(project), *drives, **more))


def test_a_travel_log_has_each_drive_at_the_rate_of_its_day(partner, project):
    """What is rounded once for a rate is shared out, so that the amounts add up."""
    days = ("2022-06-28", "2022-06-30", "2022-07-01")
    driven(partner, project, *(drive(at, day, "10.5") for at, day in enumerate(days)))
    log = travel_log(trips_of(project), "Artist", None, None)
    assert [(each.leg.day.day, each.rate.rate, each.cents) for each in log.drives] == [
        (28, "$0.585", 615), (30, "$0.585", 614), (1, "$0.625", 656),
    ]  # fmt: skip
    assert (log.miles, log.cents) == ("31.5", Expense.objects.get().cents)


def test_a_travel_log_is_of_one_traveller_and_some_days(partner, project):
    driven(partner, project, drive(0, "2022-06-30", "10"), drive(1, "2022-07-01", "20"))
    driven(partner, project, drive(0, "2022-06-30", "40"), payee="Third Bell Canvas Loft")
    trips = trips_of(project)
    assert travellers(trips) == ["Artist", "Third Bell Canvas Loft"]
    assert travel_log(trips, "Artist", date(2022, 7, 1), None).miles == "20"
    assert travel_log(trips, "Artist", None, date(2022, 6, 30)).cents == 585


def test_a_travel_log_is_printed_tagged_with_its_sources_and_lines_to_sign(partner, project):
    driven(partner, project, drive(0, "2022-06-30", "100"), drive(1, "2022-07-01", "100"))
    Expense.objects.update(cents=12_000)
    answer = logged(partner, project, who="Artist", first="2022-06-01")
    assert answer.status_code == 200 and answer["Content-Type"] == "application/pdf"
    with pikepdf.open(io.BytesIO(answer.content)) as pdf:
        assert pdf.Root.MarkInfo.Marked and b"pdfuaid" in pdf.Root.Metadata.read_bytes()
        assert str(pdf.docinfo.Title) == "Hearthlight: Travel log, Artist"
    with pdfplumber.open(io.BytesIO(answer.content)) as pdf:
        text = " ".join(pdf.pages[0].extract_text().split())
    for words in (
        "Thu 30 Jun 2022 Studio Saltglaze Metalworks Fit check 100 $0.585 $58.50",
        "In all 200 $121",
        "Announcement 2022-13",
        "The workings come to $121; the amount was written as $120.",
        "Signature of Artist",
    ):
        assert words in text


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        ({"who": "Nobody"}, "That is not in the list. Choose again."),
        ({"first": "2022-07-02"}, "Artist drove nowhere in these days."),
        ({"first": "2022-07-02", "last": "2022-07-01"}, "The last day is before the first."),
    ],
)
def test_a_travel_log_of_nothing_is_refused_beside_its_field(partner, project, asked, sentence):
    driven(partner, project, drive(0, "2022-06-30", "10"))
    answer = logged(partner, project, **{"who": "Artist", **asked})
    assert answer.status_code == 422 and "Travel log (PDF)" in answer.content.decode()
    assert sentence in answer.content.decode()


def test_the_gifts_room_offers_a_travel_log_once_somebody_drove(partner, project):
    def offered() -> bool:
        return url("travel-log", project) in partner.get(url("gifts", project)).content.decode()

    assert not offered()
    driven(partner, project, drive(0, "2022-06-30", "10"))
    assert offered()


def test_queries_of_a_travel_log_do_not_grow(partner, project, django_assert_max_num_queries):
    for at in range(4):
        driven(partner, project, drive(0, f"2022-06-1{at}", "10"))
    with django_assert_max_num_queries(1):
        assert len(travel_log(trips_of(project), "Artist", None, None).drives) == 4
