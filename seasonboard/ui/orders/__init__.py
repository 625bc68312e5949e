"""Orders: what is on its way, and will it be there in time?"""
