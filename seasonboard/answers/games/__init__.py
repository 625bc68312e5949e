"""How many games are played before an injury?"""
