"""Files made wrong at random, and what the command says to them."""
