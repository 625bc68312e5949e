"""Remakes: what came back, and why?"""
