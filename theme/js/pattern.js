// A pattern's page.

