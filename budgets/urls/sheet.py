"""The Money sheet: lines, funds, expenses and their papers."""

from django.urls import path

from budgets.views import expenses, funds, lines, papers, rules, sharing

urls = [
    path("money/", lines.money, name="money"),
    path("money/lines/add", lines.line_add, name="line-add"),
    path("money/lines/<int:pk>/edit", lines.line_edit, name="line-edit"),
    path("money/lines/<int:pk>/delete", lines.line_delete, name="line-delete"),
    path("money/orders/<int:pk>/line", lines.order_line, name="order-line"),
    path("money/funds/add", funds.fund_add, name="fund-add"),
    path("money/funds/<int:pk>/", funds.fund, name="fund"),
    path("money/funds/<int:pk>/edit", funds.fund_edit, name="fund-edit"),
    path("money/funds/<int:pk>/delete", funds.fund_delete, name="fund-delete"),
    path("money/funds/<int:pk>/rules/add", rules.rule_kinds, name="rule-kinds"),
    path("money/funds/<int:pk>/rules/add/<slug:kind>", rules.rule_add, name="rule-add"),
    path("money/funds/<int:pk>/rules/<int:rule_id>/edit", rules.rule_edit, name="rule-edit"),
    path("money/funds/<int:pk>/rules/<int:rule_id>/delete", rules.rule_delete, name="rule-delete"),
    path("money/expenses/add", expenses.expense_add, name="expense-add"),
    path("money/expenses/<int:pk>/", expenses.expense, name="expense"),
    path("money/expenses/<int:pk>/edit", expenses.expense_edit, name="expense-edit"),
    path("money/expenses/<int:pk>/delete", expenses.expense_delete, name="expense-delete"),
    path("money/expenses/<int:pk>/shares", sharing.share, name="share"),
    path("money/expenses/<int:pk>/papers/add", papers.paper_add, name="paper-add"),
    path("money/papers/<int:paper_id>/file", papers.paper_file, name="paper"),
    path("money/papers/<int:paper_id>/delete", papers.paper_delete, name="paper-delete"),
]
