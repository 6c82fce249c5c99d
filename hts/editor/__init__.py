"""What editors need to know of a text, and the language server that tells them."""
