"""What the quotes room shows: requests, their answers beside the plan and the budget, orders."""
