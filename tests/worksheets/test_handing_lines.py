"""A quantity goes to a budget line."""

from __future__ import annotations

import pytest

from budgets.models import BudgetLine
from tests import factories
from tests.worksheets.handing import Place, seen_in, told
from worksheets.engine.result import ToLine

pytestmark = pytest.mark.django_db
SOIL = ToLine(key="soil", label="Soil", quantity=24.02, unit="ft³")
PRICED = ToLine(key="soil", label="Soil", quantity=24, unit="ft³", cents=84_00)


@pytest.fixture(autouse=True)
def soil(place: Place) -> None:
    place.hands.append(SOIL)


def test_what_is_bought_is_rounded_up_in_the_form(place: Place) -> None:
    assert place.opened("soil")["quantity_hundredths"] == "24.1"
    assert place.opened("soil")["unit"] == "ft³"


def test_a_new_line_takes_what_the_quantity_costs(place: Place) -> None:
    place.send("soil", unit_cents="3.50")
    line = BudgetLine.objects.get()
    assert (line.name, line.category) == ("Soil", "materials")
    assert (line.quantity_hundredths, line.unit, line.unit_cents) == (2410, "ft³", 350)
    assert line.planned_cents == 84_35


def test_a_known_price_fills_in_the_price_of_one_and_the_budget(place: Place) -> None:
    place.rerun(PRICED)
    opened = place.opened("soil")
    assert (opened["unit_cents"], opened["planned_cents"]) == ("3.50", "84")
    place.send("soil")
    assert BudgetLine.objects.get().planned_cents == 84_00


def test_a_price_that_does_not_divide_into_cents_never_falls_short(place: Place) -> None:
    place.rerun(ToLine(key="soil", label="Soil", quantity=6, unit="gal", cents=328_00))
    assert place.opened("soil")["unit_cents"] == "54.67"
    assert "more than its budget" not in told(place.page("soil"))
    place.send("soil")
    assert BudgetLine.objects.get().planned_cents == 328_02


def test_an_existing_line_says_what_it_was_and_becomes_before_it_is_changed(place: Place) -> None:
    line = factories.LineFactory(project=place.project, name="Planting", planned_cents=200_00)
    page = told(place.look("soil", line=line.pk, unit_cents="3.50"))
    assert "It goes to the line “Planting”" in page
    assert "what is left of its budget → becomes $84.35: 24.1 ft³ at $3.50" in page
    assert "$200 stays" in page
    line.refresh_from_db()
    assert line.quantity_hundredths is None


def test_a_line_that_is_there_keeps_its_name_and_its_budget(place: Place) -> None:
    line = factories.LineFactory(project=place.project, name="Planting", planned_cents=200_00)
    place.send("soil", line=line.pk, unit_cents="3.50")
    line.refresh_from_db()
    assert (line.name, line.planned_cents, line.quantity_hundredths) == ("Planting", 200_00, 2410)


def test_the_amount_meant_for_a_new_line_does_not_become_the_budget_of_another(
    place: Place,
) -> None:
    place.rerun(PRICED)
    line = factories.LineFactory(project=place.project, name="Planting", planned_cents=200_00)
    place.send("soil", line=line.pk)
    line.refresh_from_db()
    assert line.planned_cents == 200_00


def test_an_amount_that_was_said_to_come_gives_way_to_the_quantity(place: Place) -> None:
    line = factories.LineFactory(project=place.project, name="Soil", to_come_cents=30_00)
    assert "$30 → becomes $84.35: 24.1 ft³" in told(place.look("soil", unit_cents="3.50"))
    place.send("soil", unit_cents="3.50")
    line.refresh_from_db()
    assert line.to_come_cents is None


def test_the_log_tells_of_the_line_and_of_the_worksheet(place: Place) -> None:
    line = factories.LineFactory(project=place.project, name="Planting", planned_cents=200_00)
    place.send("soil", line=line.pk, unit_cents="3.50", planned_cents="150")
    assert place.log[:3] == [
        "Handed on “Soil” of “Soil of the troughs”: 24.1 ft³ at $3.50, $84.35 in all, to the line "
        "“Planting”.",
        "“Planting” still needs 24.1 ft³ at $3.50.",
        "Changed the budget line “Planting”: $150.",
    ]


def test_a_budget_below_what_is_ordered_is_said_and_waits_to_be_seen(place: Place) -> None:
    line = factories.LineFactory(project=place.project, name="Soil", planned_cents=300_00)
    factories.ExpenseFactory(project=place.project, line=line, cents=120_00)
    calm = seen_in(place.look("soil", unit_cents="3.50"))
    answer = place.send("soil", seen=calm, unit_cents="3.50", planned_cents="100")
    assert answer.status_code == 409
    assert "$120 of it is ordered or spent already: a budget of $100 is below that." in (
        answer.content.decode()
    )
    line.refresh_from_db()
    assert line.planned_cents == 300_00
    assert place.send("soil", unit_cents="3.50", planned_cents="100").status_code == 302
    line.refresh_from_db()
    assert line.planned_cents == 100_00


def test_a_line_that_cannot_pay_for_it_says_how_much_is_missing(place: Place) -> None:
    line = factories.LineFactory(project=place.project, name="Soil", planned_cents=130_00)
    factories.ExpenseFactory(project=place.project, line=line, cents=120_00)
    assert "It needs $84.35 beside the $120 ordered or spent: $74.35 more than its budget." in (
        told(place.look("soil", unit_cents="3.50"))
    )


def test_a_price_is_asked_for_and_nothing_that_was_typed_is_lost(place: Place) -> None:
    answer = place.send("soil", seen="x", name="Bark mix")
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "Write the price of one, from a price list or a quote." in page
    assert 'value="Bark mix"' in page


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"quantity_hundredths": "-4"}, "Write a number of at most two decimals"),
        ({"quantity_hundredths": "0"}, "above zero, and at most 100,000"),
        ({"quantity_hundredths": "9999999"}, "above zero, and at most 100,000"),
        ({"unit_cents": "3,5"}, "could be read in two ways"),
        ({"unit": "a unit of more than twenty letters"}, "at most 20"),
        ({"name": " "}, "Name the new line, or choose one that is there."),
        ({"category": "spells"}, "That is not in the list. Choose again."),
        ({"line": "999999"}, "That is not in the list. Choose again."),
    ],
)
def test_a_wrong_amount_is_said_beside_its_field(
    place: Place, typed: dict[str, str], says: str
) -> None:
    answer = place.send("soil", seen="x", **{"unit_cents": "3.50", **typed})
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert not BudgetLine.objects.exists()


def test_a_second_line_of_the_same_name_is_not_made(place: Place) -> None:
    place.send("soil", unit_cents="3.50")
    answer = place.send("soil", seen="x", line="", unit_cents="3.50")
    assert "There is a line of this name. Choose it above." in answer.content.decode()
    assert BudgetLine.objects.count() == 1


def test_neither_contingency_nor_what_is_given_takes_a_quantity(place: Place) -> None:
    factories.LineFactory(project=place.project, name="Kept", category="contingency")
    factories.LineFactory(project=place.project, name="Volunteer hours", in_kind=True)
    page = place.page("soil")
    assert "Kept" not in page
    assert "Volunteer hours" not in page


def test_a_line_of_another_project_cannot_be_chosen(place: Place) -> None:
    other = factories.LineFactory(name="Of another project")
    answer = place.send("soil", seen="x", line=other.pk, unit_cents="3.50")
    assert answer.status_code == 422
    other.refresh_from_db()
    assert other.quantity_hundredths is None


def test_of_two_who_change_a_line_the_second_looks_again(place: Place) -> None:
    line = factories.LineFactory(project=place.project, name="Soil", planned_cents=200_00)
    seen = place.look("soil", unit_cents="3.50").split('name="seen" value="')[1].split('"')[0]
    BudgetLine.objects.filter(pk=line.pk).update(planned_cents=90_00)
    answer = place.send("soil", seen=seen, unit_cents="4")
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "Something was changed while you had this open." in page
    assert 'value="4"' in page
    line.refresh_from_db()
    assert line.quantity_hundredths is None


def test_without_scripts_another_line_is_shown_before_it_is_changed(place: Place) -> None:
    line = factories.LineFactory(project=place.project, name="Planting", planned_cents=200_00)
    seen = place.page("soil")
    answer = place.send("soil", seen=seen[:0], line=line.pk, unit_cents="3.50")
    assert answer.status_code == 409
    assert "This is what it does to the line “Planting” as things stand." in answer.content.decode()
