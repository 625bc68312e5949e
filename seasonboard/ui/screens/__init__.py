"""The screens of the board, and those that open over them."""
