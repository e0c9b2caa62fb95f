"""HTML: the whole report as one file to read, print and pass on."""
