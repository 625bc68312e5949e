"""How is each client doing?"""
