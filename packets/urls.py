"""Addresses of the packets app, under /projects/<project>/."""

from django.urls import path

from packets.views import asks, packets, revisions, texts

PACKET = "packets/<int:pk>/"

app_name = "packets"
urlpatterns = [
    path("packets/", packets.packets, name="packets"),
    path("packets/new/", packets.packet_new, name="packet-new"),
    path(PACKET, packets.packet, name="packet"),
    path(PACKET + "limits/", packets.packet_edit, name="packet-edit"),
    path(PACKET + "asks/add/", asks.ask_add, name="ask-add"),
    path(PACKET + "asks/<int:ask_pk>/", asks.ask_edit, name="ask-edit"),
    path(PACKET + "asks/<int:ask_pk>/delete/", asks.ask_delete_it, name="ask-delete"),
    path(PACKET + "revisions/make/", revisions.revision_make_it, name="revision-make"),
    path(PACKET + "revisions/<str:letter>/file", revisions.revision_file, name="revision-file"),
    path("texts/<str:topic>/", texts.text_edit, name="text-edit"),
    path("texts/<str:topic>/count/", texts.text_count, name="text-count"),
]
