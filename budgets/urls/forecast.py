"""What it will all have cost, and the contingency."""

from django.urls import path

from budgets.views import forecast

urls = [
    path("money/forecast/", forecast.forecast, name="forecast"),
    path("money/forecast/lapse", forecast.lapse, name="lapse"),
    path("money/forecast/lines/<int:pk>/", forecast.line, name="forecast-line"),
    path("money/forecast/draws/add", forecast.draw_add, name="draw-add"),
    path("money/forecast/draws/<int:draw_id>/undo", forecast.draw_undo, name="draw-undo"),
]
