"""Loading files on the board: a path, questions, the plan, and writing it."""
