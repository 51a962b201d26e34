"""Pictures of leaves, plants and small animals, drawn from a few measures; nothing is imported until one is shown."""
