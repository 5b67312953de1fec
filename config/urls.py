"""Every address of the site. Each app gives its own under /projects/<project>/."""

from django.urls import include, path

urlpatterns = [
    path("", include("projects.urls")),
    path("", include("schedules.public_urls")),
    path("projects/<int:project_id>/", include("suppliers.urls")),
    path("projects/<int:project_id>/", include("schedules.urls")),
    path("projects/<int:project_id>/", include("budgets.urls")),
    path("projects/<int:project_id>/", include("worksheets.urls")),
    path("projects/<int:project_id>/", include("packets.urls")),
]
