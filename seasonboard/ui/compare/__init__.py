"""Compare: are guarded athletes hurt less?"""
