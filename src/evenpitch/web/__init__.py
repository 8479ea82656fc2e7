"""The local pages and the JSON interface."""
