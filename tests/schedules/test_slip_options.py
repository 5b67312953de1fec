"""Several changes at once, and options side by side: what each does, costs and breaks."""

from __future__ import annotations

import re
from datetime import date

import pytest

from schedules.models import Hammock, KeyDate, Task
from tests import factories
from tests.schedules.test_slip import HTMX, moved_in, page_of, seen

PRICE = 18_000  # cents for a day of a second welder


def changes(letter, *rows):
    return {f"{letter}-{n}-{name}": v for n, row in enumerate(rows) for name, v in row.items()}


def task(place, name, **change):
    return {"what": f"task-{place.task(name).pk}"} | change


def walk(place, **change):
    return {"what": f"key-{place.public.pk}"} | change


def three(place):
    """A late frame: nothing is done, a second welder comes, or the walk moves a week."""
    late = task(place, "Weld", days="9")
    return (
        changes("a", late)
        | changes("b", late, task(place, "Weld", days="-4"))
        | changes("c", late, walk(place, days="7"))
    )


def apply(client, place, data, reason="The steel came late"):
    basis = seen(page_of(client, place, data))
    return client.post(place.url("slip-apply"), data | {"reason": reason, "basis": basis})


@pytest.fixture
def welder(place):
    Task.objects.filter(name__startswith="Weld").update(crash_days=3, crash_day_cents=PRICE)


def cells(page, row):
    """The cells of a row of the comparison, without their marks."""
    found = re.search(rf'<th scope="row">{row}</th>(.*?)</tr>', page, re.DOTALL)[1]
    return [
        re.sub(r"<[^>]+>", "", c).strip() for c in re.findall(r"<td.*?>(.*?)</td>", found, re.S)
    ]


def test_two_changes_are_tried_together(place, ada):
    page = page_of(ada, place, changes("a", task(place, "Weld", days="6"), walk(place, days="7")))
    assert "takes 6 working days longer, and “Mill Lane Lantern Walk” moves 7 days later" in page
    assert "44 days in hand" in page


def test_three_options_stand_side_by_side_with_the_plan_as_it_is(place, ada):
    page = page_of(ada, place, three(place))
    assert cells(page, "Days in hand") == [
        "45 days in hand", "36 days in hand", "40 days in hand", "41 days in hand",
    ]  # fmt: skip
    assert cells(page, "Mill Lane Lantern Walk")[:4] == [
        "Sat 14 Jun", "Sat 14 Jun", "Sat 14 Jun", "Sat 21 Jun",
    ]  # fmt: skip
    assert cells(page, "Moves") == ["–", "2 tasks", "2 tasks", "2 tasks"]


def test_the_option_that_is_picked_is_seen_whole(place, ada):
    first, last = (page_of(ada, place, three(place) | {"pick": p}) for p in "ac")
    assert "Option A: if" in first and "Option C: if" in last
    assert moved_in(first) == [*moved_in(last)[:2], "Mill Lane Lantern Walk"]
    assert "Apply option C with a reason" in last


def test_only_the_picked_option_is_applied(place, ada):
    answer = apply(ada, place, three(place) | {"pick": "c"})
    assert answer.status_code == 302
    assert (place.task("Weld").days, place.public.on) == (19, date(2031, 6, 21))
    assert place.last_log.sentence == (
        "“Weld lantern frame” takes 9 working days longer; “Mill Lane Lantern Walk” moves 7 days "
        "later: 45 days in hand before, 41 days in hand now."
    )
    assert place.project.log.count() == 1


def test_the_old_address_is_option_a_with_one_change(place, ada):
    old = page_of(ada, place, task(place, "Weld", days="6"))
    assert 'name="a-0-what"' in old
    assert moved_in(old) == moved_in(
        page_of(ada, place, changes("a", task(place, "Weld", days="6")))
    )


def pressed(client, place, data, **button):
    """Where a button of the form leads: an address that can be shared."""
    answer = client.get(place.url("slip"), data | button)
    assert answer.status_code == 302
    return answer.headers["Location"]


def test_a_change_is_added_and_taken_away_by_plain_buttons(place, ada):
    data = changes("a", task(place, "Weld", days="6"))
    grown = pressed(ada, place, data, add="a")
    assert "a-0-days=6" in grown and "a-1-what=&" in grown
    two = changes("a", task(place, "Weld", days="6"), walk(place, days="7"))
    assert "a-0-what=key-" in pressed(ada, place, two, take="a-0")
    assert "a-1-" not in pressed(ada, place, two, take="a-0")


def test_another_option_begins_with_the_changes_of_the_last(place, ada):
    there = pressed(ada, place, changes("a", task(place, "Weld", days="6")), compare="yes")
    assert "b-0-days=6" in there and "b-1-what=&" in there


def test_an_option_that_is_taken_away_lets_the_next_move_up(place, ada):
    there = pressed(ada, place, three(place), take="a")
    assert "a-1-days=-4" in there and "b-1-days=7" in there and "c-" not in there


def test_a_fourth_option_is_not_offered(place, ada):
    assert "Compare another option" not in page_of(ada, place, three(place))


def test_blank_rows_say_nothing(place, ada):
    blank = {"what": "", "days": "", "on": ""}
    answer = ada.get(place.url("slip"), changes("a", task(place, "Weld", days="6"), blank))
    assert answer.status_code == 200
    assert "39 days in hand" in answer.content.decode()


AGAINST = [
    ({"days": "3"}, {"days": "4"}, "Change 1 makes “Weld lantern frame” longer already."),
    ({"days": "-3"}, {"days": "-4"}, "shorter already. Put both there: −7."),
    ({"on": "2031-03-10"}, {"on": "2031-03-17"}, "to another day. Keep the one that is right."),
]


@pytest.mark.parametrize(("first", "second", "said"), AGAINST)
def test_changes_that_contradict_each_other_are_answered(place, ada, first, second, said):
    data = changes("a", task(place, "Weld", **first), task(place, "Weld", **second))
    answer = ada.get(place.url("slip"), data)
    assert answer.status_code == 422
    assert said in answer.content.decode()
    assert "Apply" not in answer.content.decode()


def test_a_date_is_moved_once(place, ada):
    answer = ada.get(place.url("slip"), changes("a", walk(place, days="7"), walk(place, days="14")))
    assert answer.status_code == 422
    assert "Change 1 moves “Mill Lane Lantern Walk” already." in answer.content.decode()


def test_late_by_nine_and_won_back_by_four_go_together(place, ada):
    data = changes("a", task(place, "Weld", days="9"), task(place, "Weld", days="-4"))
    assert "40 days in hand" in page_of(ada, place, data)


def test_what_is_wrong_in_one_option_loses_nothing_of_the_others(place, ada):
    data = three(place) | {"b-1-days": "soon"}
    answer = ada.get(place.url("slip"), data)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "Write a number of days between" in page and 'value="soon"' in page
    assert cells(page, "Days in hand")[1] == "36 days in hand"


def test_more_rows_than_an_option_can_have_are_answered(place, ada):
    rows = [{"what": "", "days": "", "on": ""}] * 12
    page = page_of(ada, place, changes("a", *rows))
    assert "Add a change" not in page


# Money


def test_a_second_welder_costs_by_the_day_up_to_what_can_be_bought(place, ada, welder):
    data = changes("a", task(place, "Weld", days="-4"))
    page = page_of(ada, place, data)
    assert "“Weld lantern frame” 3 working days shorter at $180 a day" in page
    assert cells(page, "Money") == ["–", "+$540 and more"]
    assert "4 working days shorter: only 3 working days can be bought." in page


def test_what_has_no_price_is_named(place, ada):
    page = page_of(ada, place, changes("a", task(place, "Weld", days="9")))
    assert cells(page, "Money") == ["–", "no price known"]
    assert "“Weld lantern frame” 9 working days longer: it has no price a day." in page
    assert "Your own time" in page


def hired(place, **fields):
    lift = factories.SupplierFactory(project=place.project, name="Millrace Lift Hire", kind="hire")
    lane = factories.LaneFactory(project=place.project, name="Millrace Lift Hire", supplier=lift)
    hire = Hammock.objects.create(project=place.project, name="Platform lift", lane=lane, **fields)
    hire.from_tasks.add(place.task("Weld"))
    hire.to_tasks.add(place.task("Cut"))
    return hire


def test_a_hire_that_lasts_longer_costs_its_days(place, ada):
    hired(place, day_cents=25_000)
    page = page_of(ada, place, changes("a", task(place, "Cut", days="2")))
    assert "“Platform lift” 2 days longer at $250 a day" in page
    assert cells(page, "Money") == ["–", "+$500 and more"]


def test_a_booking_that_would_have_to_move_is_named(place, ada):
    maker = factories.SupplierFactory(project=place.project, name="Third Bell Canvas Loft")
    order = factories.OrderFactory(
        supplier=maker, title="Lantern skin",
        window_start=date(2031, 3, 17), window_end=date(2031, 4, 11),
    )  # fmt: skip
    Task.objects.filter(name__startswith="Cut").update(order=order)
    page = page_of(ada, place, changes("a", task(place, "Weld", days="9")))
    assert "“Lantern skin” is booked 17 Mar to 11 Apr and would be needed 28 Mar to 24 Apr" in page


# Chance


def test_the_chance_of_each_option_comes_by_itself(place, ada):
    Task.objects.update(low_days=5, high_days=70)
    piece = ada.get(place.url("slip-chance"), three(place), headers=HTMX).content.decode()
    now, late, *_ = [int(c.split()[1]) for c in cells(piece, "Chance of making it")]
    assert len(cells(piece, "Chance of making it")) == 4
    assert late <= now


def test_without_scripts_the_chance_is_a_link_away(place, ada):
    page = page_of(ada, place, three(place))
    assert "chance=yes" in page
    whole = page_of(ada, place, three(place) | {"chance": "yes"})
    assert len(cells(whole, "Chance of making it")) == 4


def test_without_a_public_date_there_is_no_chance_and_no_error(place, ada):
    data = changes("a", task(place, "Weld", days="9"))
    KeyDate.objects.all().delete()
    assert "%" not in ada.get(place.url("slip-chance"), data, headers=HTMX).content.decode()
    assert ada.get(place.url("slip"), data).status_code == 200


# What breaks, and what was broken already


def test_what_is_broken_already_is_told_apart_from_what_breaks_newly(place, ada):
    KeyDate.objects.create(
        project=place.project, name="Insurance", kind="expiry", on=date(2031, 4, 1)
    )
    KeyDate.objects.create(
        project=place.project, name="Street permit", kind="expiry", on=date(2031, 4, 15)
    )
    page = page_of(ada, place, changes("a", task(place, "Weld", days="6")))
    new, already = page.split("What breaks outside the schedule")[1].split("Already so now")
    assert "Street permit" in new and "Insurance" not in new
    assert "Insurance" in already
    assert cells(page, "Outside the schedule") == ["–", "1 breaks"]


def test_a_fixed_date_that_is_moved_says_whom_to_ask(place, ada):
    KeyDate.objects.filter(kind="public").update(movable=False)
    page = page_of(ada, place, changes("a", walk(place, days="7")))
    assert "is marked as fixed: ask whoever set it whether Sat 21 Jun will do." in page
    assert "Already so now" not in page


def away(place, **change):
    return {"what": f"lane-{place.task('Weld').lane_id}"} | change
