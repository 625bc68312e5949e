"""Return: how soon are hurt athletes back, and in what guard?"""
