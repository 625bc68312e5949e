"""How long does a guard take?"""
