"""Verbs that lay a plan or an answer out as a document."""
