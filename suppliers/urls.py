"""Addresses of the suppliers app, under /projects/<project>/."""

from django.urls import path

from suppliers.views import directory, documents, one, orders

app_name = "suppliers"
urlpatterns = [
    path("suppliers/", directory.suppliers, name="suppliers"),
    path("suppliers/add", directory.supplier_add, name="supplier-add"),
    path("suppliers/bring", directory.supplier_bring, name="supplier-bring"),
    path("suppliers/<int:pk>/row", directory.supplier_edit_row, name="supplier-edit-row"),
    path("suppliers/<int:pk>/delete", directory.supplier_delete, name="supplier-delete"),
    path("suppliers/<int:pk>/", one.supplier, name="supplier"),
    path("suppliers/<int:pk>/edit", one.supplier_edit, name="supplier-edit"),
    path("suppliers/<int:pk>/papers/add", documents.document_add, name="document-add"),
    path(
        "suppliers/<int:pk>/papers/<int:document_id>/edit",
        documents.document_edit,
        name="document-edit",
    ),
    path(
        "suppliers/<int:pk>/papers/<int:document_id>/renew",
        documents.document_renew,
        name="document-renew",
    ),
    path(
        "suppliers/<int:pk>/papers/<int:document_id>/delete",
        documents.document_delete,
        name="document-delete",
    ),
    path(
        "suppliers/<int:pk>/papers/<int:document_id>/file",
        documents.document_file,
        name="document-file",
    ),
    path("orders/add", directory.order_add_any, name="order-add"),
    path("suppliers/<int:pk>/orders/add", orders.order_add, name="order-add"),
    path("suppliers/<int:pk>/orders/<int:order_id>/edit", orders.order_edit, name="order-edit"),
    path(
        "suppliers/<int:pk>/orders/<int:order_id>/delete",
        orders.order_delete,
        name="order-delete",
    ),
]
