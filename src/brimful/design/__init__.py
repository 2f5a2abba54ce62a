"""Plan + catalogue + weather in, a frozen Design out; stages.py reads like its table of contents."""
