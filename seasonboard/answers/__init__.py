"""Answers: one frozen value per question of the board, assembled from counts and statistics."""
