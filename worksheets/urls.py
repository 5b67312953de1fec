"""Addresses of the worksheets app, under /projects/<project>/."""

from django.urls import path

from worksheets.views import drawing, handing, listing, new, papers, reviews, saved, searching

ONE = "worksheets/<int:worksheet_id>/"

app_name = "worksheets"
urlpatterns = [
    path("worksheets/", listing.worksheets, name="worksheets"),
    path("worksheets/sources/", listing.sources, name="sources"),
    path("worksheets/ready/", reviews.ready, name="ready"),
    path("worksheets/ready/paper", reviews.ready_paper, name="ready_paper"),
    path("worksheets/drawing/", drawing.drawing, name="drawing"),
    path("worksheets/drawing/paper", drawing.drawing_paper, name="drawing_paper"),
    path("worksheets/new/<slug:sheet>/", new.worksheet_new, name="new"),
    path("worksheets/new/<slug:sheet>/try/", new.worksheet_try, name="try"),
    path(ONE, saved.worksheet, name="worksheet"),
    path(ONE + "delete/", saved.worksheet_delete, name="delete"),
    path(ONE + "runs/<int:number>/", saved.worksheet_run, name="run"),
    path(ONE + "review/", reviews.review, name="review"),
    path(ONE + "review/delete/", reviews.review_delete, name="review_delete"),
    path(ONE + "hand/<slug:key>/", handing.worksheet_hand, name="hand"),
    path(ONE + "search/", searching.search, name="search"),
    path(ONE + "paper", papers.paper, name="paper"),
    path(ONE + "files/<str:name>", papers.file, name="file"),
]
