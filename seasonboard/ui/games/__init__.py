"""Games: how many games are played before an injury?"""
