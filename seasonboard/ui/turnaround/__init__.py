"""Turnaround: how long does a guard take?"""
