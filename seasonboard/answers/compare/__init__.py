"""Are guarded athletes hurt less?"""
