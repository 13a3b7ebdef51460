"""How much thread, elastic, binding and how many buttons: formulae of the trade."""
