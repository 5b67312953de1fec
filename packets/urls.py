"""Addresses of the packets app, under /projects/<project>/."""

from django.urls import URLPattern

app_name = "packets"
urlpatterns: list[URLPattern] = []
