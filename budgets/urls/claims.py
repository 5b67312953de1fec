"""What was asked of each fund, and what it paid."""

from django.urls import path

from budgets.views import claim_papers, claims

urls = [
    path("money/claims/", claims.claims, name="claims"),
    path("money/funds/<int:pk>/claim", claims.claim_add, name="claim-add"),
    path("money/funds/<int:pk>/income", claims.income_add, name="income-add"),
    path("money/income/<int:income_id>/delete", claims.income_delete, name="income-delete"),
    path("money/claims/<int:pk>/", claims.claim, name="claim"),
    path("money/claims/<int:pk>/file", claims.claim_file, name="claim-file"),
    path("money/claims/<int:pk>/refresh", claims.claim_refresh, name="claim-refresh"),
    path("money/claims/<int:pk>/delete", claims.claim_delete, name="claim-delete"),
    path("money/claims/<int:pk>/back", claims.claim_back, name="claim-back"),
    path("money/claims/<int:pk>/money", claims.claim_pay, name="claim-pay"),
    path(
        "money/claims/<int:pk>/shares/<int:claim_share_id>/correct",
        claims.claim_correct,
        name="claim-correct",
    ),
    path("money/claims/<int:pk>/claim.pdf", claim_papers.claim_pdf, name="claim-pdf"),
    path("money/claims/<int:pk>/claim.csv", claim_papers.claim_csv, name="claim-csv"),
]
