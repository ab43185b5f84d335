"""Parts: from the words of a model file to flats, convex pieces, holes and meshes."""
