"""The lay: pieces arranged on cloth, searched for, checked and drawn."""
