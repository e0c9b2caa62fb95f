"""Pages that exist already: SVG -> `DrawnPage` > `DrawnPanel` > `DrawnBalloon`, in mm."""
