"""Who asks: this computer itself, a paired device with a role, or a stranger."""
