"""Checks: what in the records is doubtful?"""
