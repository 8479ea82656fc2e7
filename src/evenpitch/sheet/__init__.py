"""A plan becomes a document; printers for text, HTML, PDF, DXF and JSON."""
