"""The book: jobs, rigs, records on disk."""
