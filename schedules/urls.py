"""Addresses of the schedules app, under /projects/<project>/."""

from django.urls import URLPattern

app_name = "schedules"
urlpatterns: list[URLPattern] = []
