"""Elastic, ribbon, binding, zips: how wide and how long, by a photograph with a sheet beside."""
