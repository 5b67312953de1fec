"""Hours, goods and space given, with their evidence."""

from django.urls import path

from budgets.views import gifts

urls = [
    path("money/gifts/", gifts.gifts, name="gifts"),
]
