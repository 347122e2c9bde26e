"""Every sentence and label: facts in, words out."""
