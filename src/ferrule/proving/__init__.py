"""What is done and proved on site: who feeds which place, how it is made dead, and the steps of the day."""
