"""Drawings to scale that pages put together: cloth against one metre rule."""
