"""Who was offered a guard, and who wears it?"""
