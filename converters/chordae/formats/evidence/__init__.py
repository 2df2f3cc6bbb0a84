"""What a record's evidence shows, for viewers and players: Web Annotations, IIIF manifests, chapters and subtitles."""
