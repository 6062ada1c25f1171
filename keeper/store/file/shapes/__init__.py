"""The statements of migrations, a module for each thing they shape."""
