"""What can we promise the next department?"""
