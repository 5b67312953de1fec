"""Addresses of the suppliers app, under /projects/<project>/."""

from django.urls import URLPattern

app_name = "suppliers"
urlpatterns: list[URLPattern] = []
