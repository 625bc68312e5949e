"""Capacity: what is printed first, and is there room for it?"""
