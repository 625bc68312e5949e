"""Pitch: what can we promise the next department?"""
