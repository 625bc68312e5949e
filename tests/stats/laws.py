"""How often a law is tried: few enough to be quick, and without a clock."""

from hypothesis import settings

law = settings(max_examples=40)
