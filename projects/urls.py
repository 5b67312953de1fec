"""Addresses of the projects app."""

from django.urls import URLPattern

app_name = "projects"
urlpatterns: list[URLPattern] = []
