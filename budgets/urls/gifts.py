"""Hours, goods and space given, with their evidence; trips and nights away."""

from django.urls import path

from budgets.views import credits, gift_papers, gifts, travel

urls = [
    path("money/gifts/", gifts.gifts, name="gifts"),
    path("money/gifts/add", gifts.gift_add, name="gift-add"),
    path("money/gifts/time-sheet.pdf", gift_papers.blank_sheet, name="blank-sheet"),
    path("money/expenses/<int:pk>/gift", gifts.gift_edit, name="gift-edit"),
    path("money/expenses/<int:pk>/signed", gifts.hours_signed, name="hours-signed"),
    path("money/expenses/<int:pk>/time-sheet.pdf", gift_papers.filled_sheet, name="time-sheet"),
    path("money/expenses/<int:pk>/letter.pdf", gift_papers.letter, name="gift-letter"),
    path("money/expenses/<int:pk>/credits/add", credits.credit_add, name="credit-add"),
    path("money/credits/<int:credit_id>/delete", credits.credit_delete, name="credit-delete"),
    path("money/trips/travel-log.pdf", gift_papers.travel_log, name="travel-log"),
    path("money/trips/add", travel.trip_add, name="trip-add"),
    path("money/expenses/<int:pk>/trip", travel.trip_edit, name="trip-edit"),
    path("money/stays/add", travel.stay_add, name="stay-add"),
    path("money/expenses/<int:pk>/stay", travel.stay_edit, name="stay-edit"),
]
