"""An answer of each question made by hand, every value another, and what is to be read of it.

A module named after the folder of its question holds `ANSWER`; `OBJECT`, what JSON has of it beside
the summary; `CSV`, its lines; and `TEXT`, its lines between the answer and what was left out.
"""
