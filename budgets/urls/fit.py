"""The best assignment of expenses to funds."""

from django.urls import path

from budgets.views import fit, why

urls = [
    path("money/best/", fit.best, name="best"),
    path("money/best/gain", fit.gain, name="best-gain"),
    path("money/best/worth", fit.worth, name="best-worth"),
    path("money/best/accept", fit.accept, name="best-accept"),
    path("money/best/<int:pk>/back", fit.back, name="best-back"),
    path("money/expenses/<int:pk>/why", why.why, name="why-not"),
]
