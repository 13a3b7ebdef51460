"""What is drawn on a traced piece of paper: notches on its edge, and the arrow of its grain."""
