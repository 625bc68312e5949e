"""What Compare and Games rest on, for somebody who checks them; people are codes."""
