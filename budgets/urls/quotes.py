"""Quotes asked for, compared, and chosen; and the orders that come of them."""

from django.urls import path

from budgets.views import orders, quotes, quotes_answers, quotes_choice

ONE, QUOTE = "money/quotes/<int:pk>", "money/quotes/<int:pk>/<int:quote_id>"
ORDER = "money/orders/<int:pk>"

urls = [
    path("money/quotes/", quotes.quotes, name="quotes"),
    path("money/quotes/add", quotes.request_add, name="quotes-add"),
    path(f"{ONE}/", quotes.request_page, name="quote-request"),
    path(f"{ONE}/edit", quotes.request_edit, name="quotes-edit"),
    path(f"{ONE}/delete", quotes.request_delete, name="quotes-delete"),
    path(f"{ONE}/asked", quotes.asked_all, name="quotes-asked"),
    path(f"{ONE}/reopen", quotes_choice.reopen, name="quotes-reopen"),
    path(f"{QUOTE}/words", quotes_answers.words, name="quote-words"),
    path(f"{QUOTE}/print", quotes_answers.printed, name="quote-print"),
    path(f"{QUOTE}/asked", quotes_answers.asked, name="quote-asked"),
    path(f"{QUOTE}/answer", quotes_answers.answer, name="quote-answer"),
    path(f"{QUOTE}/declined", quotes_answers.declined, name="quote-declined"),
    path(f"{QUOTE}/file", quotes_answers.quote_file, name="quote-file"),
    path(f"{QUOTE}/choose", quotes_choice.choose, name="quote-choose"),
    path(f"{ORDER}/", orders.order, name="order"),
    path(f"{ORDER}/bill", orders.bill, name="order-bill"),
    path(f"{ORDER}/changes/add", orders.change_add, name="order-change"),
    path(f"{ORDER}/changes/<int:change_id>/delete", orders.change_delete, name="order-unchange"),
    path(f"{ORDER}/cancel", orders.cancel, name="order-cancel"),
]
