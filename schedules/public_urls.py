"""Addresses that need no login: whoever knows one may read it."""

from django.urls import path

from schedules.views import feed_file

app_name = "calendar"
urlpatterns = [path("calendar/<str:token>.ics", feed_file.feed, name="feed")]
