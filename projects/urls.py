"""Addresses of the projects app."""

from django.urls import path

from projects.views import accounts, home, log, overview, people, pictures

PROJECT = "projects/<int:project_id>/"

app_name = "projects"
urlpatterns = [
    path("", home.home, name="home"),
    path("setup/", accounts.setup, name="setup"),
    path("login/", accounts.login, name="login"),
    path("logout/", accounts.logout, name="logout"),
    path("password/", accounts.password, name="password"),
    path("projects/new/", home.project_new, name="project-new"),
    path(PROJECT, overview.overview, name="overview"),
    path(PROJECT + "details/", overview.details, name="details"),
    path(PROJECT + "people/", people.people, name="people"),
    path(PROJECT + "people/add/", people.person_add, name="person-add"),
    path(PROJECT + "people/new/", people.person_new, name="person-new"),
    path(PROJECT + "people/<int:membership_id>/role/", people.person_role, name="person-role"),
    path(
        PROJECT + "people/<int:membership_id>/remove/", people.person_remove, name="person-remove"
    ),
    path(PROJECT + "log/", log.log, name="log"),
    path(PROJECT + "pictures/add/", pictures.picture_add, name="picture-add"),
    path(PROJECT + "pictures/<int:picture_id>/", pictures.picture_edit, name="picture-edit"),
    path(
        PROJECT + "pictures/<int:picture_id>/delete/",
        pictures.picture_delete,
        name="picture-delete",
    ),
    path(PROJECT + "pictures/<int:picture_id>/file", pictures.picture_file, name="picture-file"),
]
