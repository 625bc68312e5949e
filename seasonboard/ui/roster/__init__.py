"""Roster: who can play the next game, and in what guard?"""
