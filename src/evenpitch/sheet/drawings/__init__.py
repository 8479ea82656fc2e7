"""Pictures drawn from the job's own figures: each function takes numbers and words and returns one Drawing, 360 units wide."""
