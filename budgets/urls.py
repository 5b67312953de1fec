"""Addresses of the budgets app, under /projects/<project>/."""

from django.urls import URLPattern

app_name = "budgets"
urlpatterns: list[URLPattern] = []
