"""The nouns of one job and the verbs that turn one into the next."""
