"""Who can play the next game, and in what guard?"""
