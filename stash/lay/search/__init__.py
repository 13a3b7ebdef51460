"""Finding a lay, and a shorter one."""
