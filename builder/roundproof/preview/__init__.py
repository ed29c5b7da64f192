"""The live preview: watches the files of a site, makes anew what changed, and serves it."""
