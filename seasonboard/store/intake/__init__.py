"""Intake: tables of files become rows of the store, in three steps - read, check, write."""
