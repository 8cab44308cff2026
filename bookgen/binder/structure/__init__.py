"""What pages are to those who hear them: heads, paragraphs, figures in words, in their order."""
