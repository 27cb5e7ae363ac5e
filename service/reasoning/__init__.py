"""What follows from facts: the rule language read strictly, and two matchers with one meaning that apply it."""
