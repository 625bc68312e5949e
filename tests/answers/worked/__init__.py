"""An answer of each question made by hand, every value another, and what is to be read of it.

All are named after the folder of the question: a module that holds `ANSWER`; its JSON, without the
summary; its CSV; and its text, the lines between the answer and what was left out.
"""
