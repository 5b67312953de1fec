"""What was asked of each fund, and what it paid."""

from django.urls import path

from budgets.views import claim_after, claim_papers, claims, income, milestones

urls = [
    path("money/claims/", claims.claims, name="claims"),
    path("money/funds/<int:pk>/claim", claims.claim_add, name="claim-add"),
    path("money/funds/<int:pk>/income", income.income_add, name="income-add"),
    path("money/funds/<int:pk>/income/back", income.income_back, name="income-back"),
    path("money/income/<int:income_id>/delete", income.income_delete, name="income-delete"),
    path("money/income/<int:income_id>/edit", income.income_edit, name="income-edit"),
    path("money/funds/<int:pk>/milestone", milestones.milestone_add, name="milestone-add"),
    path("money/funds/<int:pk>/milestones", milestones.milestone_split, name="milestone-split"),
    path(
        "money/milestones/<int:milestone_id>/edit",
        milestones.milestone_edit,
        name="milestone-edit",
    ),
    path(
        "money/milestones/<int:milestone_id>/delete",
        milestones.milestone_delete,
        name="milestone-delete",
    ),
    path(
        "money/milestones/<int:milestone_id>/invoice",
        milestones.milestone_invoice,
        name="milestone-invoice",
    ),
    path(
        "money/milestones/<int:milestone_id>/money", milestones.milestone_pay, name="milestone-pay"
    ),
    path("money/claims/<int:pk>/", claims.claim, name="claim"),
    path("money/claims/<int:pk>/change", claims.claim_change, name="claim-change"),
    path("money/claims/<int:pk>/file", claims.claim_file, name="claim-file"),
    path("money/claims/<int:pk>/refresh", claims.claim_refresh, name="claim-refresh"),
    path("money/claims/<int:pk>/delete", claims.claim_delete, name="claim-delete"),
    path("money/claims/<int:pk>/back", claim_after.claim_back, name="claim-back"),
    path("money/claims/<int:pk>/money", claim_after.claim_pay, name="claim-pay"),
    path(
        "money/claims/<int:pk>/shares/<int:claim_share_id>/correct",
        claim_after.claim_correct,
        name="claim-correct",
    ),
    path("money/claims/<int:pk>/claim.pdf", claim_papers.claim_pdf, name="claim-pdf"),
    path("money/claims/<int:pk>/claim.csv", claim_papers.claim_csv, name="claim-csv"),
]
