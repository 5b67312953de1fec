"""A purchase list goes to a request for quotes, sentences to the maintenance plan."""

from __future__ import annotations

from datetime import timedelta

import pytest

from projects.models import Text, Topic
from suppliers.models import Quote, QuoteRequest
from tests import factories
from tests.worksheets.handing import Place, told
from worksheets.engine.result import ToCare, ToRequest

pytestmark = pytest.mark.django_db
LIST = ToRequest(
    key="packs", label="The purchase list", title="Paint for the pier",
    items=("2 × 5 gal primer", "3 × 1 gal blue, one batch"),
)  # fmt: skip
LONGER = ToRequest(
    key="packs", label="The purchase list", title="Paint for the pier", items=("4 × 1 gal blue",)
)
WATER = ToCare(key="water", label="Watering", text="Two cans a week from May to September.")
MORE = ToCare(key="water", label="Watering", text="Three cans a week from May to September.")


@pytest.fixture(autouse=True)
def hands(place: Place) -> None:
    place.hands.extend([LIST, WATER])


def care(place: Place) -> str:
    return Text.objects.get(project=place.project, topic=Topic.CARE).body


def test_a_list_becomes_a_new_request_in_its_own_words(place: Place) -> None:
    place.send("packs", wanted_on="2031-04-07")
    request = QuoteRequest.objects.get()
    assert request.title == "Paint for the pier"
    assert request.what == "2 × 5 gal primer\n3 × 1 gal blue, one batch"
    assert request.part == place.worksheet.part
    assert request.wanted_on and request.wanted_on.isoformat() == "2031-04-07"
    assert place.log[:2] == [
        "Handed on “The purchase list” of “Soil of the troughs”: 2 lines to the request “Paint for "
        "the pier”.",
        "Wrote a request for quotes, “Paint for the pier”.",
    ]


def test_a_list_can_be_added_to_a_request_that_is_open(place: Place) -> None:
    request = QuoteRequest.objects.create(project=place.project, title="Colours", what="Brushes")
    supplier = factories.SupplierFactory(project=place.project)
    Quote.objects.create(request=request, supplier=supplier)
    place.send("packs", request=request.pk)
    request.refresh_from_db()
    assert request.what == "Brushes\n\n2 × 5 gal primer\n3 × 1 gal blue, one batch"
    assert request.title == "Colours"
    assert request.quotes.get().supplier == supplier


def test_handed_on_again_the_list_takes_the_place_of_the_old_one(place: Place) -> None:
    place.send("packs")
    QuoteRequest.objects.update(what="Ask for samples.\n\n" + QuoteRequest.objects.get().what)
    place.rerun(LONGER)
    assert place.opened("packs")["request"] == str(QuoteRequest.objects.get().pk)
    assert "What was handed on before is replaced" in told(place.page("packs"))
    place.send("packs")
    assert QuoteRequest.objects.get().what == "Ask for samples.\n\n4 × 1 gal blue"


def test_whoever_was_asked_already_is_named_before_the_words_change(place: Place) -> None:
    request = QuoteRequest.objects.create(project=place.project, title="Colours", what="Brushes")
    supplier = factories.SupplierFactory(project=place.project, name="Ledger Street Paints")
    Quote.objects.create(request=request, supplier=supplier, asked_on=factories.TODAY)
    page = told(place.look("packs", request=request.pk))
    assert "Ledger Street Paints was asked in the old words already" in page


def test_a_request_from_which_was_chosen_takes_nothing_more(place: Place) -> None:
    place.send("packs")
    QuoteRequest.objects.update(is_closed=True)
    assert "A quote was chosen there since: the request is closed." in place.page()
    assert place.opened("packs")["request"] == ""


def test_a_day_that_has_passed_is_refused(place: Place) -> None:
    day = factories.TODAY - timedelta(days=1)
    answer = place.send("packs", seen="x", wanted_on=day.isoformat())
    assert answer.status_code == 422
    assert "That day has passed." in answer.content.decode()


def test_an_open_request_of_that_name_is_pointed_to(place: Place) -> None:
    place.send("packs")
    answer = place.send("packs", seen="x", request="")
    assert "An open request has this name. Choose it above." in answer.content.decode()
    assert QuoteRequest.objects.count() == 1


def test_an_empty_list_is_no_request(place: Place) -> None:
    answer = place.send("packs", seen="x", what=" ")
    assert answer.status_code == 422
    assert "Write what they are to price." in answer.content.decode()


def test_sentences_come_after_what_the_plan_says_already(place: Place) -> None:
    Text.objects.create(project=place.project, topic=Topic.CARE, body="Wash it in May.")
    assert "4 words → becomes 12 words" in told(place.page("water"))
    place.send("water")
    assert care(place) == "Wash it in May.\n\nTwo cans a week from May to September."
    assert place.log[0] == (
        "Handed on “Watering” of “Soil of the troughs”: 8 words to the text “Maintenance plan”."
    )


def test_handed_on_again_the_sentences_are_replaced_not_repeated(place: Place) -> None:
    place.send("water")
    row = Text.objects.get()
    row.body = f"Wash it in May.\r\n\r\n{row.body}\r\n\r\nOil the crank."
    row.save()
    place.rerun(MORE)
    place.send("water")
    assert care(place) == (
        "Wash it in May.\n\nThree cans a week from May to September.\n\nOil the crank."
    )


def test_the_same_sentences_twice_change_nothing(place: Place) -> None:
    place.send("water")
    place.send("water")
    assert care(place) == "Two cans a week from May to September."


def test_sentences_that_were_changed_by_hand_stay_and_it_is_said(place: Place) -> None:
    place.send("water")
    Text.objects.update(body="Two cans, and never at noon.")
    place.rerun(MORE)
    assert "has been changed there by hand, so it stays" in told(place.page("water"))
    assert "no longer stand there as they were handed on" in place.page()
    place.send("water")
    assert care(place) == (
        "Two cans, and never at noon.\n\nThree cans a week from May to September."
    )


def test_a_plan_of_more_than_can_be_kept_is_refused(place: Place) -> None:
    Text.objects.create(project=place.project, topic=Topic.CARE, body="a " * 9_990)
    answer = place.send("water", seen="x", text="b " * 60)
    assert answer.status_code == 422
    assert "at most 20,000 can be kept" in answer.content.decode()


def test_of_two_who_write_the_plan_the_second_looks_again(place: Place) -> None:
    seen = place.page("water").split('name="seen" value="')[1].split('"')[0]
    Text.objects.create(project=place.project, topic=Topic.CARE, body="Wash it in May.")
    answer = place.send("water", seen=seen)
    assert answer.status_code == 409
    assert care(place) == "Wash it in May."
