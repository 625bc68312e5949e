"""What in the records is doubtful?"""
