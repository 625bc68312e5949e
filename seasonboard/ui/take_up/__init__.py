"""Take-up: who was offered a guard, and who wears it?"""
