"""What stands in the shop: frozen nouns, no sums. None means "don't know"."""
