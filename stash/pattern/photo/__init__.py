"""Photographs of paper pieces and remnants, measured by the calibration sheets beside them."""
