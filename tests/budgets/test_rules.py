"""The rules of a fund: each a sentence, added, changed and taken off one by one."""

from __future__ import annotations

from datetime import date

import pytest

from budgets.engine import RULES, rule_from
from budgets.engine.standing import STANDING
from budgets.fit import MATCH, fund_value, match_value
from budgets.forms.rules import KINDS, RuleForm
from budgets.models import FundRule
from projects.models import LogEntry
from tests.budgets.factories import HTMX, fund, rule, url

pytestmark = pytest.mark.django_db

TYPED = {
    "allowed_categories": {"categories": ["materials", "install"]},
    "barred_categories": {"categories": ["food"], "match_too": "on"},
    "match_only": {"categories": ["admin"]},
    "cash_only": {},
    "rate_ceiling": {"unit": "mile", "mills": "0.725"},
    "period_by": {"by": "paid"},
    "paid_by": {"on": "2031-07-14"},
    "nothing_before": {"what": "the permit", "on": "2031-05-01"},
    "papers_needed": {"papers": ["receipt", "payment"], "cents": "50"},
    "quotes_needed": {"cents": "1,000", "quotes": "3"},
    "reason_needed": {"cents": "500"},
    "barred_relations": {"relations": ["related", "own_space"]},
    "places": {"places": "Wexcombe Mills, Overwater"},
    "category_cap": {"categories": ["food", "admin"], "cents": "1,200"},
    "category_share_cap": {"categories": ["admin"], "basis_points": "15"},
    "category_claimed_cap": {"categories": ["admin"], "basis_points": "12.5 %"},
    "category_total_cap": {"categories": ["admin"], "basis_points": "15"},
    "category_floor": {"categories": ["artist_fee"], "basis_points": "40"},
    "agreed_budget": {"basis_points": "10", "of": "line"},
    "indirect_rate": {"basis_points": "15", "excluded": ["install"], "partner_cents": "50,000"},
    "match": {"grant": "10", "other": "3", "cash": "50", "in_kind": "yes"},
    "grant_share": {"basis_points": "50", "cash_basis_points": "50"},
    "tiered_match": {"most_1": "60,000", "rate_1": "50", "above": "60"},
    "total_band": {"least": "2", "most": "10"},
    "match_is_owed": {},
    "paid_back": {"months": "3", "lag_days": "45", "dates": "2031-06-30"},
    "paid_ahead": {"basis_points": "80", "lag_days": "20"},
    "paid_by_milestone": {},
    "held_back": {"basis_points": "10", "lag_days": "30"},
    "retained": {"basis_points": "5", "stop_basis_points": "50", "after_basis_points": "2.5"},
    "report_due": {"what": "Final report", "days": "45", "after": "public_date"},
    "progress_report": {"numerator": "2", "denominator": "3"},
    "spend_down": {"basis_points": "50", "on": "2031-06-30"},
    "records_kept": {"years": "3"},
}


def page_of(client, project, ward) -> str:
    return client.get(url("fund", project, ward.pk)).content.decode()


def test_every_kind_of_rule_can_be_chosen_and_each_chosen_is_a_rule():
    standing = {type(rule).code for rule in STANDING}
    assert set(KINDS) == (set(RULES) - standing) | {MATCH} == set(TYPED)


@pytest.mark.parametrize("code", TYPED)
def test_every_kind_is_added_read_as_a_sentence_and_opened_again(partner, project, code):
    ward = fund(project)
    add = url("rule-add", project, ward.pk, code)
    assert partner.get(add).status_code == 200
    answer = partner.post(add, {**TYPED[code], "clause": "Section 4.2"})
    assert answer.status_code == 302, answer.context["form"].errors
    row = ward.rules.get()
    if code != MATCH:
        sentence = rule_from(row.code, row.params).sentence()
        assert sentence in page_of(partner, project, ward).replace("&#x27;", "'")
    fund_value(ward)
    form = RuleForm(kind=KINDS[code], rule=row)
    sent = {bound.name: shown(bound) for bound in form}
    sent = {name: value for name, value in sent.items() if value not in (None, "")}
    again = RuleForm(sent, kind=KINDS[code], rule=row)
    assert again.is_valid(), again.errors
    assert again.params() == row.params and again.values()["clause"] == "Section 4.2"


def shown(bound):  # type: ignore[no-untyped-def]
    """A field as a browser sends it."""
    value = bound.value()
    if isinstance(value, bool):
        return "on" if value else None
    if (
        isinstance(value, list)
        and bound.field.widget.__class__.__name__ != "CheckboxSelectMultiple"
    ):
        return bound.field.prepare_value(value)
    return value if isinstance(value, list | None) else str(value)


def test_a_match_is_written_as_amounts_and_kept_as_a_ratio(partner, project):
    ward = fund(project)
    typed = {**TYPED["match"], "kind": "25", "payers": ["own", "sponsor"]}
    partner.post(url("rule-add", project, ward.pk, "match"), typed)
    match = match_value(ward.rules.get())
    assert (match.numerator, match.denominator, match.cash_basis_points) == (3, 10, 5000)
    assert (match.kind_basis_points, match.payers) == (2500, {"own", "sponsor"})
    assert (
        "For every $10 of the grant, $3 from elsewhere, at least 50 % of it in cash; gifts in kind "
        "count for 25 % of it at most. Only sponsor or own money counts."
    ) in page_of(partner, project, ward)


def test_a_match_without_gifts_is_all_cash(partner, project):
    ward = fund(project)
    typed = {"grant": "1", "other": "1", "in_kind": "no"}
    partner.post(url("rule-add", project, ward.pk, "match"), typed)
    assert not match_value(ward.rules.get()).in_kind
    assert "$1 from elsewhere, all of it in cash." in page_of(partner, project, ward)


def test_a_second_match_takes_the_place_of_the_first(partner, project):
    ward = fund(project)
    rule(ward, "match", numerator=1, denominator=1)
    partner.post(url("rule-add", project, ward.pk, "match"), TYPED["match"])
    assert ward.rules.get()["numerator"] == 3


WRONG = [
    ("category_cap", {"cents": "5"}, "Tick at least one category."),
    ("category_cap", {"categories": ["food"]}, "Write an amount, such as 1,200 or 1,200.50."),
    ("category_share_cap", {"categories": ["food"], "basis_points": "ten"}, "such as 50 or 12.5"),
    ("category_share_cap", {"categories": ["food"], "basis_points": "150"}, "100 at most"),
    ("rate_ceiling", {"unit": "mile", "mills": "72.5 cents"}, "such as 0.725"),
    ("rate_ceiling", {"unit": "mile", "mills": "0.7255"}, "at most three decimals"),
    ("paid_by", {}, "Choose a day."),
    ("paid_back", {"dates": "June"}, "Write each day as year-month-day"),
    ("paid_back", {"months": "-1"}, "Write a whole number from 0 to 60."),
    ("grant_share", {"basis_points": "0"}, "pays nothing"),
    ("total_band", {"least": "9", "most": "2"}, "The upper number is below the lower one."),
    ("progress_report", {"numerator": "4", "denominator": "3"}, "such as 2 of 3"),
    ("match", {"grant": "0", "other": "1", "in_kind": "yes"}, "above zero"),
    ("match", {"grant": "1", "in_kind": "yes"}, "Write an amount"),
    ("cash_only", {"starts_on": "2031-05-01", "ends_on": "2031-04-30"}, "before the first"),
    ("cash_only", {"clause": "x" * 161}, "at most 160"),
    ("places", {"places": " , "}, "Write at least one name."),
]


@pytest.mark.parametrize(("code", "typed", "sentence"), WRONG)
def test_a_wrong_rule_is_said_and_kept(partner, project, code, typed, sentence):
    ward = fund(project)
    answer = partner.post(url("rule-add", project, ward.pk, code), typed)
    assert answer.status_code == 422 and sentence in answer.content.decode()
    assert not FundRule.objects.exists()


def test_a_rule_has_its_days_and_the_clause_it_was_taken_from(partner, project):
    ward = fund(project)
    days = {"starts_on": "2031-05-01", "ends_on": "2031-06-30", "clause": "Amendment 1"}
    partner.post(url("rule-add", project, ward.pk, "cash_only"), days)
    page = page_of(partner, project, ward)
    assert "For expenses from 1 May 2031 to 30 June 2031." in page and "Amendment 1" in page
    (value,) = fund_value(ward).rules
    assert (value.starts_on, value.ends_on) == (date(2031, 5, 1), date(2031, 6, 30))


def test_a_changed_rule_is_told_in_the_log(partner, project):
    ward = fund(project)
    row = rule(ward, "category_cap", categories=["admin"], cents=20_000)
    typed = {"categories": ["admin"], "cents": "300"}
    partner.post(url("rule-edit", project, ward.pk, row.pk), typed, headers=HTMX)
    row.refresh_from_db()
    assert row["cents"] == 300_00
    assert "Pays at most $300.00 for administration." in LogEntry.objects.first().sentence


def test_a_rule_changed_by_another_is_shown_before_it_is_lost(partner, project):
    ward = fund(project)
    row = rule(ward, "category_cap", categories=["admin"], cents=20_000)
    edit = url("rule-edit", project, ward.pk, row.pk)
    form = partner.get(edit).context["form"]
    mine = {name: form[name].value() or "" for name in ("version", "was", "clause")}
    partner.post(edit, {"categories": ["admin"], "cents": "300"})
    answer = partner.post(edit, {**mine, "categories": ["admin"], "cents": "250"})
    page = answer.content.decode()
    assert answer.status_code == 409 and 'value="250"' in page
    assert "Somebody saved “300” here meanwhile." in page
    row.refresh_from_db()
    assert row["cents"] == 300_00


def test_a_rule_is_taken_off_after_a_question(partner, project):
    ward = fund(project)
    row = rule(ward, "cash_only")
    gone = url("rule-delete", project, ward.pk, row.pk)
    assert "“Pays cash costs only.”" in partner.get(gone).content.decode()
    partner.post(gone)
    assert not ward.rules.exists()
    assert "Took a rule off" in LogEntry.objects.first().sentence


def test_the_choice_of_kinds_is_in_plain_words(partner, project):
    page = partner.get(url("rule-kinds", project, fund(project).pk)).content.decode()
    assert "At most a percent of the award for a kind of cost" in page
    assert "category_share_cap</a>" not in page


def test_a_kind_that_does_not_exist_is_not_found(partner, project):
    assert partner.get(url("rule-add", project, fund(project).pk, "award")).status_code == 404


def test_the_rule_of_another_fund_is_not_found(partner, project):
    row = rule(fund(project), "cash_only")
    other = fund(project, "Wexcombe Arts Board grant")
    assert partner.get(url("rule-edit", project, other.pk, row.pk)).status_code == 404


def test_a_limit_shows_how_far_it_is_used(reader, project):
    ward = fund(project, award_cents=1_000_000)
    rule(ward, "category_share_cap", categories=["admin"], basis_points=1500)
    assert "$0 of $1,500 is used, $1,500 is left." in page_of(reader, project, ward)


def test_a_whole_project_out_of_band_is_told_on_the_page(reader, project):
    nation = fund(project, "National award", award_cents=10_000_00)
    rule(nation, "progress_report")
    rule(nation, "spend_down", basis_points=5000, on="2031-06-30")
    assert "or it may lapse" in page_of(reader, project, nation)


STEPS = {"most_1": "60,000", "rate_1": "50", "most_2": "90,000", "rate_2": "55", "above": "60"}


def test_a_match_in_steps_keeps_as_many_as_are_written(partner, project):
    ward = fund(project)
    partner.post(url("rule-add", project, ward.pk, "tiered_match"), STEPS)
    row = ward.rules.get()
    tiers = [[60_000_00, 5000], [90_000_00, 5500], [None, 6000]]
    assert row.params == {"tiers": tiers}
    edit = url("rule-edit", project, ward.pk, row.pk)
    page = partner.get(edit).content.decode()
    assert 'value="90000"' in page and 'name="most_3"' in page and 'name="most_4"' not in page
    partner.post(edit, {**STEPS, "most_3": "120,000", "rate_3": "58"})
    assert ward.rules.get().params["tiers"][2] == [120_000_00, 5800]


def test_a_step_is_taken_off_by_emptying_it(partner, project):
    ward = fund(project)
    ward_rule = rule(
        ward, "tiered_match", tiers=[[60_000_00, 5000], [90_000_00, 5500], [None, 6000]]
    )
    partner.post(
        url("rule-edit", project, ward.pk, ward_rule.pk), {**STEPS, "most_1": "", "rate_1": ""}
    )
    assert ward.rules.get().params == {"tiers": [[90_000_00, 5500], [None, 6000]]}


def test_another_step_is_offered_and_nothing_saved(partner, project):
    ward = fund(project)
    answer = partner.post(url("rule-add", project, ward.pk, "tiered_match"), {**STEPS, "more": "1"})
    assert answer.status_code == 200 and not ward.rules.exists()
    page = answer.content.decode()
    assert 'name="most_3"' in page and 'name="most_4"' not in page


def test_half_a_step_is_refused_and_nothing_typed_is_lost(partner, project):
    ward = fund(project)
    typed = {**STEPS, "rate_2": ""}
    answer = partner.post(url("rule-add", project, ward.pk, "tiered_match"), typed)
    page = answer.content.decode()
    assert answer.status_code == 422 and not ward.rules.exists()
    assert "Step 2 is half empty." in page and 'value="90,000"' in page


def test_steps_that_do_not_grow_are_refused(partner, project):
    ward = fund(project)
    typed = {**STEPS, "most_2": "50,000"}
    answer = partner.post(url("rule-add", project, ward.pk, "tiered_match"), typed)
    assert answer.status_code == 422
    assert "The steps of a match grow" in answer.content.decode()
